using System.Collections.Immutable;
using System.Globalization;

using ClearView.Console.Judging;
using ClearView.V1;

namespace ClearView.Console.Rendering;

/// <summary>One specimen in full: where it comes from, how it was measured, every measurand, every caveat.</summary>
internal static class SpecimenDetail
{
    /// <summary>Writes it.</summary>
    public static void Write(Screen screen, SpecimenResult result, ImmutableArray<Limit> limits)
    {
        MethodPanel.WriteRows(screen, Origin(result));
        screen.Line();
        var evaluation = result.Evaluation!;
        MethodPanel.Write(screen, evaluation.Method, limits, evaluation.MethodName);
        var notebook = new Notebook();
        ValueTable.Write(screen, result, limits, notebook);
        // A caveat may concern only what is absent, such as haze without a diffuse scan.
        notebook.Mark(evaluation.Caveats, result.Specimen);
        WriteWeighting(screen, evaluation);
        screen.Line();
        ThicknessTable.Write(screen, evaluation, result.Measurement.Conditions);
        FindingsText.Write(screen, evaluation);
        BudgetText.Write(screen, evaluation, limits);
        FindingsText.WriteConformity(screen, evaluation);
        notebook.Write(screen, specimens: 1);
        VerdictText.WriteSummary(screen, [result]);
    }

    private static void WriteWeighting(Screen screen, Evaluation evaluation)
    {
        var weightings = evaluation.Values
            .Select(value => value.HasIntervalNm ? $"{value.Weighting}, {NumberText.Plain(value.IntervalNm)} nm interval" : value.Weighting)
            .Distinct(StringComparer.Ordinal);
        var coverage = BudgetText.Coverage(evaluation.Values.Select(value => value.Uncertainty));
        (string Label, string Text)[] rows = [("Weighting", string.Join("; ", weightings)), ("CIE tables", evaluation.CieDataVersion)];
        MethodPanel.WriteRows(screen, coverage.Length > 0 ? [("Uncertainty", coverage), .. rows] : rows);
    }

    private static List<(string Label, string Text)> Origin(SpecimenResult result)
    {
        var identification = result.Measurement.Identification;
        var conditions = result.Measurement.Conditions;
        var rows = new List<(string Label, string Text)> { ("Specimen", identification.Specimen) };
        if (result.FilePath is { } path)
        {
            rows.Add(("File", path));
        }
        var origin = new (string Label, string Text)[]
        {
            ("line", identification.Line), ("product", identification.Product), ("lot", identification.Lot), ("roll", identification.Roll),
        };
        if (origin.Any(one => one.Text.Length > 0))
        {
            rows.Add(("Origin", string.Join(", ", origin.Where(one => one.Text.Length > 0).Select(one => $"{one.Label} {one.Text}"))));
        }
        if (ConditionsText.Position(identification) is { Length: > 0 } position)
        {
            rows.Add(("Position", position));
        }
        rows.Add(("Measured at", $"{Time(result.Measurement.MeasuredAt)} by {conditions.Operator}"));
        rows.Add(("Instrument", ConditionsText.Instrument(conditions)));
        if (ConditionsText.State(conditions) is { Length: > 0 } state)
        {
            rows.Add(("State", state));
        }
        if (result.Reading is { } reading)
        {
            rows.Add(("Reading ID", reading.ReadingId));
            // The build behind the version stands in the JSON.
            rows.Add(("Stored at", $"{Time(reading.RecordedAt)} by version {reading.SoftwareVersion.Split('+')[0]}"));
            rows.AddRange(MakingText.Rows(reading));
        }
        return rows;
    }

    /// <summary>A time to the second, UTC.</summary>
    public static string Time(Google.Protobuf.WellKnownTypes.Timestamp time) =>
        time.ToDateTime().ToString("yyyy-MM-dd HH:mm:ss 'UTC'", CultureInfo.InvariantCulture);
}

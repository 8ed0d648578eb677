using System.Collections.Immutable;
using System.Globalization;

using ClearView.Console.Judging;
using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering;

/// <summary>One specimen in full: where it comes from, how it was measured, every measurand, every caveat.</summary>
internal static class SpecimenDetail
{
    /// <summary>Writes it.</summary>
    public static void Write(Screen screen, SpecimenResult result, ImmutableArray<Limit> limits)
    {
        MethodPanel.WriteRows(screen, Origin(result));
        screen.Line();
        MethodPanel.Write(screen, result.Evaluation!.Method, limits);
        var notebook = new Notebook();
        var table = new Table().Border(TableBorder.Simple).Collapse();
        table.AddColumn(new TableColumn("Measurand").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Sym.").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Value").NoWrap().RightAligned().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Unit").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Light").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Standard").PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Notes").PadLeft(0).PadRight(1));
        if (!limits.IsEmpty)
        {
            table.AddColumn(new TableColumn("Result").NoWrap().PadLeft(0).PadRight(0));
        }
        foreach (var value in result.Evaluation.Values)
        {
            var caveats = result.Evaluation.Caveats.Where(caveat => caveat.Measurands.Count == 0 || caveat.Measurands.Contains(value.Measurand));
            List<string> cells =
            [
                Markup.Escape(value.Name), Markup.Escape(value.Symbol), NumberText.Of(value), value.Unit,
                MethodText.ShortPair(value.LightAndObserver), Markup.Escape(value.Standard), notebook.Mark(caveats, result.Specimen),
            ];
            if (!limits.IsEmpty)
            {
                var own = result.Verdict!.Outcomes.Where(outcome => outcome.Value == value).ToList();
                cells.Add(own.Count > 0 ? VerdictText.Coloured(own.Max(outcome => outcome.Judgement)) : "");
            }
            table.AddRow([.. cells]);
        }
        screen.Write(table);
        // A caveat may concern only what is absent, such as haze without a diffuse scan.
        notebook.Mark(result.Evaluation.Caveats, result.Specimen);
        WriteWeighting(screen, result.Evaluation);
        screen.Line();
        notebook.Write(screen, specimens: 1);
        VerdictText.WriteSummary(screen, [result]);
    }

    private static void WriteWeighting(Screen screen, Evaluation evaluation)
    {
        var weightings = evaluation.Values
            .Select(value => value.HasIntervalNm ? $"{value.Weighting}, {NumberText.Plain(value.IntervalNm)} nm interval" : value.Weighting)
            .Distinct(StringComparer.Ordinal);
        MethodPanel.WriteRows(screen, [("Weighting", string.Join("; ", weightings)), ("CIE tables", evaluation.CieDataVersion)]);
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
        }
        return rows;
    }

    /// <summary>A time to the second, UTC.</summary>
    public static string Time(Google.Protobuf.WellKnownTypes.Timestamp time) =>
        time.ToDateTime().ToString("yyyy-MM-dd HH:mm:ss 'UTC'", CultureInfo.InvariantCulture);
}

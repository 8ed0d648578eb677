using System.Collections.Immutable;

using ClearView.Console.Judging;
using ClearView.Optics.Evaluations;

using Spectre.Console;

using MeasuredValue = ClearView.V1.MeasuredValue;

namespace ClearView.Console.Rendering;

/// <summary>Several specimens, one line each.</summary>
internal static class SpecimenTable
{
    // What film and bottle people look at first; a limit brings its own column.
    private static readonly ImmutableArray<Measurand> Usual =
    [
        Measurands.LuminousTransmittance, Measurands.Haze, Measurands.CielabL, Measurands.CielabA, Measurands.CielabB,
        Measurands.YellownessIndexE313, Measurands.YellownessIndexD1925,
    ];

    /// <summary>Writes the table.</summary>
    /// <param name="screen">Where.</param>
    /// <param name="results">The specimens.</param>
    /// <param name="leading">Columns before the values: header, and what stands in it.</param>
    /// <param name="limits">Limits, whose measurands are shown too.</param>
    /// <param name="notebook">Takes the caveats.</param>
    /// <param name="trailing">Columns after the values.</param>
    /// <param name="measurands">Measurands to show; <see langword="null"/> takes the usual ones.</param>
    public static void Write(
        Screen screen,
        IReadOnlyCollection<SpecimenResult> results,
        IReadOnlyList<(string Header, Func<SpecimenResult, string> Text)> leading,
        ImmutableArray<Limit> limits,
        Notebook notebook,
        IReadOnlyList<(string Header, Func<SpecimenResult, string> Text)> trailing,
        ImmutableArray<Measurand>? measurands = null)
    {
        var shown = Shown(results, limits, measurands ?? Usual);
        var table = new Table().Border(TableBorder.Simple).Collapse();
        foreach (var (header, _) in leading)
        {
            // Names come folded where a reader would break them.
            table.AddColumn(new TableColumn(Markup.Escape(header)).NoWrap().PadLeft(0).PadRight(1));
        }
        foreach (var measurand in shown)
        {
            table.AddColumn(new TableColumn(Markup.Escape(Heading(measurand))).RightAligned().NoWrap().PadLeft(0).PadRight(1));
        }
        table.AddColumn(new TableColumn("Notes").PadLeft(0).PadRight(1));
        foreach (var (header, _) in trailing)
        {
            table.AddColumn(new TableColumn(Markup.Escape(header)).NoWrap().PadLeft(0).PadRight(1));
        }
        if (!limits.IsEmpty)
        {
            table.AddColumn(new TableColumn("Result").NoWrap().PadLeft(0).PadRight(0));
        }
        foreach (var result in results)
        {
            var cells = new List<string>();
            cells.AddRange(leading.Select(column => Markup.Escape(column.Text(result))));
            cells.AddRange(shown.Select(measurand => Find(result, measurand) is { } value ? Cell(value) : "-"));
            cells.Add(notebook.Mark(result.Evaluation?.Caveats ?? [], result.Specimen));
            cells.AddRange(trailing.Select(column => Markup.Escape(column.Text(result))));
            if (!limits.IsEmpty)
            {
                cells.Add(result.Verdict is { } verdict ? VerdictText.Coloured(verdict.Judgement) : "-");
            }
            table.AddRow([.. cells]);
        }
        screen.Write(table);
        if (BudgetText.Coverage(results.SelectMany(result => result.Evaluation?.Values ?? []).Select(value => value.Uncertainty)) is { Length: > 0 } coverage)
        {
            screen.Line($"{coverage}; --detail shows the budgets");
            screen.Line();
        }
    }

    private static List<Measurand> Shown(IReadOnlyCollection<SpecimenResult> results, ImmutableArray<Limit> limits, ImmutableArray<Measurand> usual) =>
    [
        .. Measurand.All.Where(measurand => limits.Any(limit => limit.Measurand == measurand)
            || (usual.Contains(measurand) && results.Any(result => Find(result, measurand) is not null))),
    ];

    // Symbol above unit; the two yellowness indices share their symbol, so that the standard stands beneath.
    private static string Heading(Measurand measurand)
    {
        if (measurand == Measurands.YellownessIndexE313)
        {
            return "YI\nE313";
        }
        if (measurand == Measurands.YellownessIndexD1925)
        {
            return "YI\nD1925";
        }
        return measurand.Unit.Length > 0 ? $"{measurand.Symbol}\n{measurand.Unit}" : measurand.Symbol;
    }

    // The uncertainty stands beneath its value, so that a line still takes seven of them.
    private static string Cell(MeasuredValue value) =>
        NumberText.Expanded(value) is { Length: > 0 } expanded ? $"{NumberText.Of(value)}\n{expanded}" : NumberText.Of(value);

    private static MeasuredValue? Find(SpecimenResult result, Measurand measurand) =>
        result.Evaluation?.Values.FirstOrDefault(value => value.Measurand == measurand.Id);
}

using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering.Decisions;

/// <summary>Verdicts of several readings, a line each.</summary>
internal static class VerdictColumn
{
    /// <summary>Columns of an identifier beside a verdict.</summary>
    public const int FoldedIdentifier = 20;

    /// <summary>Mark and word in plain text; a dash where nothing was decided on.</summary>
    public static string Of(Verdict? verdict) => verdict is null ? "-" : Markup.Remove(DecisionText.Outcome(verdict.Outcome));

    /// <summary>Writes why readings do not conform, and how many do.</summary>
    public static void WriteReasons(Screen screen, IReadOnlyCollection<SpecimenResult> results)
    {
        var judged = results.Where(result => result.Reading?.Verdict is not null).ToList();
        if (judged.Count == 0)
        {
            return;
        }
        var grid = new Grid()
            .AddColumn(new GridColumn().NoWrap().PadLeft(0).PadRight(2))
            .AddColumn(new GridColumn().PadLeft(0).PadRight(2))
            .AddColumn(new GridColumn().PadLeft(0).PadRight(0));
        foreach (var result in judged.Where(result => result.Reading!.Verdict.Outcome != VerdictOutcome.Conformity))
        {
            var verdict = result.Reading!.Verdict;
            grid.AddRow(DecisionText.Outcome(verdict.Outcome), Markup.Escape(result.Specimen), Markup.Escape(string.Join("\n", verdict.Reasons)));
        }
        if (grid.Rows.Count > 0)
        {
            screen.Write(grid);
        }
        screen.Line($"{VerdictText.Counted(judged.Count, "reading")}: {DecisionText.Counts(judged.Select(result => result.Reading!.Verdict.Outcome))}");
    }
}

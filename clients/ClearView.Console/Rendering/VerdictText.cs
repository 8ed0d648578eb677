using ClearView.Console.Judging;

using Spectre.Console;

namespace ClearView.Console.Rendering;

/// <summary>Says verdicts in words; colour only underlines the word.</summary>
internal static class VerdictText
{
    /// <summary>The word.</summary>
    public static string Word(Judgement judgement) => judgement switch
    {
        Judgement.Pass => "PASS",
        Judgement.Fail => "FAIL",
        _ => "OPEN",
    };

    /// <summary>The word with its colour, as markup.</summary>
    public static string Coloured(Judgement judgement) => judgement switch
    {
        Judgement.Pass => "[green]PASS[/]",
        Judgement.Fail => "[red]FAIL[/]",
        _ => "[yellow]OPEN[/]",
    };

    /// <summary>Writes why specimens failed or stay open, and how many passed.</summary>
    public static void WriteSummary(Screen screen, IReadOnlyCollection<SpecimenResult> results)
    {
        var judged = results.Where(result => result.Verdict is not null).ToList();
        if (judged.Count == 0)
        {
            return;
        }
        var grid = new Grid()
            .AddColumn(new GridColumn().NoWrap().PadLeft(0).PadRight(2))
            .AddColumn(new GridColumn().PadLeft(0).PadRight(2))
            .AddColumn(new GridColumn().PadLeft(0).PadRight(0));
        var notKept = judged
            .SelectMany(result => result.Verdict!.Outcomes.Select(outcome => (result.Specimen, Outcome: outcome)))
            .Where(one => one.Outcome.Judgement != Judgement.Pass)
            .ToList();
        foreach (var (specimen, outcome) in notKept)
        {
            grid.AddRow(Coloured(outcome.Judgement), Markup.Escape(specimen), Markup.Escape(outcome.Reason));
        }
        if (notKept.Count > 0)
        {
            screen.Write(grid);
        }
        var counts = new[] { Judgement.Pass, Judgement.Fail, Judgement.Open }
            .Select(judgement => (Judgement: judgement, Count: judged.Count(result => result.Verdict!.Judgement == judgement)))
            .Where(one => one.Count > 0)
            .Select(one => $"{NumberText.Plain(one.Count)} {Coloured(one.Judgement)}");
        screen.Line($"{Counted(judged.Count, "specimen")}: {string.Join(", ", counts)}");
    }

    /// <summary>A number with its noun, for example "1 specimen", "2 specimens".</summary>
    public static string Counted(int count, string noun) => count == 1 ? $"1 {noun}" : $"{NumberText.Plain(count)} {noun}s";
}

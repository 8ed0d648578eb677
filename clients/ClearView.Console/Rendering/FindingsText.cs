using System.Globalization;

using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering;

/// <summary>What an evaluation finds beside its values. Outcomes are a mark and words; colour only underlines them.</summary>
internal static class FindingsText
{
    /// <summary>Writes light barrier, difference words, scattering and screen colour.</summary>
    public static void Write(Screen screen, Evaluation evaluation)
    {
        var rows = new List<(string Label, string Text)>();
        if (evaluation.LightBarrier is { } barrier)
        {
            rows.Add(("Light barrier", LightBarrier(barrier)));
            rows.Add(("", Markup.Escape(barrier.Caution)));
        }
        if (evaluation.Method.ReferenceColour is not null)
        {
            rows.Add(("Against reference", evaluation.DifferenceWords.Count > 0
                ? Markup.Escape(string.Join(", ", evaluation.DifferenceWords))
                : evaluation.ScreenColour is null ? "no colour measured" : "no part of the difference is worth a word"));
        }
        if (evaluation.Scattering is { } fit)
        {
            rows.Add(("Scattering", string.Create(
                CultureInfo.InvariantCulture,
                $"n = {NumberText.Supported(fit.Exponent, fit.ExponentStandardError)}, standard error {NumberText.Supported(fit.ExponentStandardError, fit.ExponentStandardError)}, fit explains {100 * fit.ExplainedFraction:F1} %: {Markup.Escape(fit.Suggestion)}")));
        }
        if (evaluation.ScreenColour is { } colour)
        {
            var swatch = screen.ShowsTrueColour ? $"[on {colour.Hex}]      [/] " : "";
            rows.Add(("Colour on screen", $"{swatch}{colour.Hex}, for orientation{(colour.InGamut ? "" : "; beyond what the screen can show")}"));
        }
        MethodPanel.WriteMarkupRows(screen, rows);
        if (rows.Count > 0)
        {
            screen.Line();
        }
    }

    /// <summary>The light barrier in a line, as markup.</summary>
    public static string LightBarrier(LightBarrier barrier) => string.Create(
        CultureInfo.InvariantCulture,
        $"{(barrier.WithinLimit ? "[green]✓ within limit[/]" : "[red]✗ above limit[/]")}: greatest {barrier.MaximumPercent:F2} % at {barrier.MaximumAtNm:0.#} nm, limit {barrier.LimitPercent:0.####} % over 290-450 nm");

    /// <summary>Writes the requirements of the standard held against the record.</summary>
    public static void WriteConformity(Screen screen, Evaluation evaluation)
    {
        if (evaluation.Conformity.Count == 0)
        {
            return;
        }
        screen.Line("[bold]Conformity[/]: the standard's requirements held against what was recorded");
        var table = new Table().Border(TableBorder.Simple).Collapse();
        table.AddColumn(new TableColumn("Outcome").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Clause").PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Requirement").PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Recorded").PadLeft(0).PadRight(0));
        foreach (var finding in evaluation.Conformity)
        {
            table.AddRow(Outcome(finding.Outcome), Markup.Escape(finding.Clause), Markup.Escape(finding.Requirement), Markup.Escape(finding.Reason));
        }
        screen.Write(table);
        screen.Line();
    }

    private static string Outcome(ConformityOutcome outcome) => outcome switch
    {
        ConformityOutcome.Met => "[green]✓ met[/]",
        ConformityOutcome.NotMet => "[red]✗ not met[/]",
        _ => "[yellow]? not recorded[/]",
    };
}

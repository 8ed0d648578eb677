using ClearView.Console.Demo.Scenario;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.Optics.Evaluations;
using ClearView.Plotting.Decisions;
using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;

using Spectre.Console;

namespace ClearView.Console.Demo;

/// <summary>The screens and charts of a demonstration on which something is decided.</summary>
internal static class DemoScreens
{
    private const int MostSignals = 4;

    /// <summary>What the line hears: verdicts, signals, the contaminated roll, whether the process is capable.</summary>
    public static void ShowLine(Screen screen, DemoResult result)
    {
        screen.Line($"[bold]Verdicts[/] stored with the readings, under {Markup.Escape(DecisionText.Name(result.FilmSpecification.SpecificationName))}"
            + $" ({Markup.Escape(DecisionText.Rule(result.FilmSpecification.Specification.DecisionRule))})");
        screen.Line("  " + DecisionText.Counts(result.Film.Select(reading => reading.Verdict.Outcome)));
        screen.Line();
        screen.Line($"[bold]Signals[/] that the line heard while it posted, on the control chart {DemoDecisions.HazeChart}:"
            + $" {result.Signals.Length}, the first of them");
        ControlChartScreen.WriteRaised(screen, result.Signals.Take(MostSignals));
        screen.Line();
        screen.Line($"[bold]Roll {FilmShift.RollName(FilmShift.BadRollIndex)}[/]");
        RollScreen.Write(screen, result.RollMap);
        screen.Line();
        screen.Line("[bold]Capability[/] of the shift");
        CapabilityScreen.Write(screen, result.Capability);
        screen.Line();
    }

    /// <summary>What the packaging engineer decides.</summary>
    public static void ShowPackaging(Screen screen, DemoResult result)
    {
        screen.Line($"[bold]Amber bottles[/] against their specification, the mean of {result.Bottle.Verdict.SpecimenCount} panels");
        VerdictScreen.Write(screen, result.Bottle.Verdict);
        screen.Line();
    }

    /// <summary>What the lab learns of its resin lots.</summary>
    public static void ShowLab(Screen screen, DemoResult result)
    {
        screen.Line($"[bold]Resin lots[/], {ResinTrial.SpecimensPerLot} specimens each");
        foreach (var comparison in result.Lots.Comparisons)
        {
            LotScreen.Write(screen, comparison);
            screen.Line();
        }
    }

    /// <summary>Draws the charts of decisions, PNG and SVG.</summary>
    /// <returns>The paths that were written.</returns>
    public static IEnumerable<string> WriteCharts(string folder, DemoResult result)
    {
        (string Name, ChartModel Chart)[] charts =
        [
            ("film-haze-control", ProcessChart.Build(result.HazeChart)),
            ("film-haze-capability", CapabilityChart.Build(result.Capability)),
            ("film-roll-map", RollMapChart.Build(result.RollMap)),
            ("bottle-verdict", VerdictChart.Build(result.Bottle.Verdict)),
            .. result.Lots.Comparisons.Select(comparison => (
                comparison.Measurand == Measurands.Haze.Id ? "lots-haze" : "lots-yellowness", LotComparisonChart.Build(comparison))),
        ];
        return charts.SelectMany(chart => ChartWriter.Write(chart.Chart, folder, chart.Name, [ChartFormat.Png, ChartFormat.Svg]));
    }
}

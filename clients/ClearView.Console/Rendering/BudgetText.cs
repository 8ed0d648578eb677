using System.Collections.Immutable;
using System.Globalization;

using ClearView.Console.Judging;
using ClearView.Optics.Evaluations;

using Spectre.Console;

using Evaluation = ClearView.V1.Evaluation;
using MeasuredValue = ClearView.V1.MeasuredValue;
using MonteCarloInterval = ClearView.V1.MonteCarloInterval;
using Uncertainty = ClearView.V1.Uncertainty;

namespace ClearView.Console.Rendering;

/// <summary>What an uncertainty is made of, and whether Monte Carlo confirms it.</summary>
internal static class BudgetText
{
    private const int BarWidth = 24;

    // What a budget is asked for most; a limit brings its own, and all stand in the JSON.
    private static readonly ImmutableArray<Measurand> Usual = [Measurands.LuminousTransmittance, Measurands.Haze, Measurands.YellownessIndexE313];

    /// <summary>What "±" means on a screen, with coverage factor and probability; empty where nothing has an uncertainty.</summary>
    public static string Coverage(IEnumerable<Uncertainty?> uncertainties)
    {
        var known = uncertainties.OfType<Uncertainty>().ToList();
        if (known.Count == 0)
        {
            return "";
        }
        var least = Factor(known.Min(one => one.CoverageFactor));
        var most = Factor(known.Max(one => one.CoverageFactor));
        return $"± is the expanded uncertainty U = k·u, k = {least}{(most == least ? "" : $" to {most}")}, coverage {NumberText.Plain(known[0].CoveragePercent)} %";
    }

    /// <summary>Writes the budgets of one specimen.</summary>
    public static void Write(Screen screen, Evaluation evaluation, ImmutableArray<Limit> limits)
    {
        var known = evaluation.Values.Where(value => value.Uncertainty is not null).ToList();
        if (known.Count == 0)
        {
            return;
        }
        var shown = known
            .Where(value => Usual.Any(one => one.Id == value.Measurand) || limits.Any(limit => limit.Measurand.Id == value.Measurand))
            .ToList();
        foreach (var value in shown)
        {
            WriteBudget(screen, value);
        }
        WriteMonteCarlo(screen, known);
    }

    private static void WriteBudget(Screen screen, MeasuredValue value)
    {
        var uncertainty = value.Uncertainty;
        var unit = value.Unit.Length > 0 ? $" {value.Unit}" : "";
        screen.Line($"[bold]Budget of {Markup.Escape(value.Name)}[/]: {Markup.Escape(value.Symbol)} = {NumberText.Of(value)} {NumberText.Expanded(value)}{unit}, "
            + $"k = {Factor(uncertainty.CoverageFactor)}, {(uncertainty.HasEffectiveDegreesOfFreedom ? $"{NumberText.Fixed(uncertainty.EffectiveDegreesOfFreedom, 1)} effective degrees of freedom" : "degrees of freedom infinite")}");
        var table = new Table().Border(TableBorder.Simple).Collapse();
        table.AddColumn(new TableColumn("Source").PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Correlation").NoWrap().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn($"u{(unit.Length > 0 ? $",{unit}" : "")}").NoWrap().RightAligned().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("Share, %").NoWrap().RightAligned().PadLeft(0).PadRight(1));
        table.AddColumn(new TableColumn("of the variance").NoWrap().PadLeft(0).PadRight(0));
        foreach (var part in uncertainty.Budget.OrderByDescending(part => part.VarianceFraction))
        {
            table.AddRow(
                Markup.Escape(part.Source),
                Markup.Escape(part.Correlation),
                NumberText.Supported(part.StandardUncertainty, uncertainty.StandardUncertainty, 1),
                NumberText.Fixed(100 * part.VarianceFraction, 1),
                BarText.Of(part.VarianceFraction, BarWidth));
        }
        table.AddRow("[bold]Combined[/]", "", NumberText.Supported(uncertainty.StandardUncertainty, uncertainty.StandardUncertainty, 1), "100.0", "");
        screen.Write(table);
        if (uncertainty.MonteCarlo is { } trials)
        {
            screen.Line($"Monte Carlo, {Counted(trials)} trials: u = {NumberText.Supported(trials.StandardUncertainty, uncertainty.StandardUncertainty, 1)}, "
                + $"{NumberText.Plain(uncertainty.CoveragePercent)} % interval {NumberText.Supported(trials.IntervalLow, uncertainty.ExpandedUncertainty)} "
                + $"to {NumberText.Supported(trials.IntervalHigh, uncertainty.ExpandedUncertainty)}{unit}");
            screen.Line($"  {(trials.ConfirmsLinear ? "[green]✓ confirms the linear result[/]" : "[red]✗ does not confirm the linear result: rely on the interval[/]")}"
                + $"{(trials.Stable ? "" : ", [yellow]? not yet stable[/]")}");
        }
        screen.Line();
    }

    private static void WriteMonteCarlo(Screen screen, List<MeasuredValue> known)
    {
        var tried = known.Where(value => value.Uncertainty.MonteCarlo is not null).ToList();
        if (tried.Count == 0)
        {
            return;
        }
        var contradicted = tried.Where(value => !value.Uncertainty.MonteCarlo.ConfirmsLinear).Select(value => value.Name).ToList();
        MethodPanel.WriteRows(screen,
        [
            ("Monte Carlo", $"confirms the linear uncertainty of {tried.Count - contradicted.Count} of {VerdictText.Counted(tried.Count, "value")} (JCGM 101)"
                + (contradicted.Count > 0 ? $"; not of {string.Join("; ", contradicted)}" : "")),
        ]);
        screen.Line();
    }

    private static string Counted(MonteCarloInterval trials) => trials.TrialCount.ToString("#,0", CultureInfo.InvariantCulture).Replace(',', ' ');

    private static string Factor(double factor) => NumberText.Fixed(factor, 2);
}

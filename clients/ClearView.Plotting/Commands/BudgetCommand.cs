using System.CommandLine;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;

namespace ClearView.Plotting.Commands;

/// <summary>Draws uncertainty budgets, one chart for each reading.</summary>
internal sealed class BudgetCommand : SpecimenCommand
{
    private const string Text = """
        What each source of error contributes to the uncertainty of each measurand, one chart for each specimen.

        Examples:
          chart budget --specimen S-0012
          chart budget --specimen S-0012 --measurand haze --measurand cielab_b
        """;

    private readonly Option<string[]> _measurands = MeasurandOption.Create(
        $"Measurand to show, at most {BudgetChart.MostMeasurands}; repeatable. [default: haze, luminous transmittance and yellowness]");

    public BudgetCommand(TimeProvider clock, IMethodChoice method)
        : base("budget", Text, clock, method, needsSpectra: false) => Add(_measurands);

    protected override ChartModel Build(ParseResult parsed, ChartReading reading) =>
        BudgetChart.Build(reading, parsed.GetValue(_measurands) ?? []);
}

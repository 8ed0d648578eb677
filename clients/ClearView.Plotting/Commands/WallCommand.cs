using System.CommandLine;

using ClearView.Plotting.Charts;

namespace ClearView.Plotting.Commands;

/// <summary>Draws measurands by region of a bottle's wall.</summary>
internal sealed class WallCommand : ChartCommand
{
    private const string Text = """
        Least, mean and greatest value at each region of a bottle's wall (panel, shoulder, base, label area), with every reading.

        Examples:
          chart wall --product "round bottle 500"
          chart wall bottles/ --method iso --measurand haze --measurand yellowness_index_e313
        """;

    private readonly Option<string[]> _measurands = MeasurandOption.Create(
        $"Measurand to show, at most {WallChart.MostMeasurands}; repeatable. [default: luminous transmittance and haze]");

    public WallCommand(TimeProvider clock, IMethodChoice method)
        : base("wall", Text, clock, method, needsSpectra: false) => Add(_measurands);

    protected override bool Draw(ParseResult parsed, IReadOnlyList<ChartReading> readings)
    {
        Output.Write(parsed, WallChart.Build(readings, parsed.GetValue(_measurands) ?? []), Name);
        return true;
    }
}

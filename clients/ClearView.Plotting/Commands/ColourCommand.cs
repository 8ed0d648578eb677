using System.CommandLine;

using ClearView.Plotting.Charts;

namespace ClearView.Plotting.Commands;

/// <summary>Draws the a*b* plane with L*.</summary>
internal sealed class ColourCommand(TimeProvider clock, IMethodChoice method) : ChartCommand("colour", Text, clock, method, needsSpectra: false)
{
    private const string Text = """
        The a*b* plane of CIELAB with L* beside it, marks by product, roll or specimen.

        Examples:
          chart colour scans/ --method iso
          chart colour --line "Line 2" --from 2026-03-03
        """;

    protected override bool Draw(ParseResult parsed, IReadOnlyList<ChartReading> readings)
    {
        Output.Write(parsed, ColourPlaneChart.Build(readings), "colour");
        return true;
    }
}

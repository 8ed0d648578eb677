using System.CommandLine;

using ClearView.Plotting.Charts;

namespace ClearView.Plotting.Commands;

/// <summary>Draws the chromaticity diagram.</summary>
internal sealed class ChromaticityCommand(TimeProvider clock, IMethodChoice method) : ChartCommand("chromaticity", Text, clock, method, needsSpectra: false)
{
    private const string Text = """
        The x, y chromaticity diagram with spectral locus, white point and the line to the dominant wavelength.

        Examples:
          chart chromaticity bottle.csv --method astm
          chart chromaticity --product "PET bottle 0.5 L amber"
        """;

    protected override bool Draw(ParseResult parsed, IReadOnlyList<ChartReading> readings)
    {
        Output.Write(parsed, ChromaticityChart.Build(readings), "chromaticity");
        return true;
    }
}

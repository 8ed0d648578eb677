using System.CommandLine;

using ClearView.Plotting.Charts;

namespace ClearView.Plotting.Commands;

/// <summary>Draws spectral transmittance and haze, one chart for each reading.</summary>
internal sealed class SpectralCommand(TimeProvider clock) : ChartCommand("spectral", Text, clock, needsSpectra: true)
{
    private const int MostCharts = 50;

    private const string Text = """
        Spectral transmittance (total, regular, diffuse) and spectral haze, one chart for each specimen.

        Examples:
          chart spectral film.csv --method astm
          chart spectral --roll R-0048 --count 3
        """;

    protected override bool Draw(ParseResult parsed, IReadOnlyList<ChartReading> readings)
    {
        switch (readings.Count)
        {
            case 0:
                throw new ChartRefusedException("There is no reading to show. Widen the filters, or name files.");
            case > MostCharts:
                throw new ChartRefusedException(
                    $"{readings.Count} readings would be as many charts; at most {MostCharts} are drawn. Narrow the filters, or give --count or --id.");
            case 1:
                Output.Write(parsed, SpectralTransmittanceChart.Build(readings[0]), "spectral");
                return true;
            default:
                for (int i = 0; i < readings.Count; i++)
                {
                    Output.Write(parsed, SpectralTransmittanceChart.Build(readings[i]), "spectral", $"-{i + 1:00}-{readings[i].Specimen}");
                }

                return true;
        }
    }
}

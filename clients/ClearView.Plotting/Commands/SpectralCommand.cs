using System.CommandLine;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;

namespace ClearView.Plotting.Commands;

/// <summary>Draws spectral transmittance and haze, one chart for each reading.</summary>
internal sealed class SpectralCommand : SpecimenCommand
{
    private const string Text = """
        Spectral transmittance (total, regular, diffuse) and spectral haze, one chart for each specimen, with the expanded
        uncertainty as a band where the readings carry it.

        Examples:
          chart spectral film.csv --method astm
          chart spectral --roll R-0048 --count 3 --bands
        """;

    private readonly Option<bool> _bands = new("--bands")
    {
        Description = "Show UV-C, UV-B, UV-A, visible and photosynthetic bands, and the method's own bands, above the spectrum.",
    };

    public SpectralCommand(TimeProvider clock, IMethodChoice method)
        : base("spectral", Text, clock, method, needsSpectra: true) => Add(_bands);

    protected override ChartModel Build(ParseResult parsed, ChartReading reading) =>
        SpectralTransmittanceChart.Build(reading, parsed.GetValue(_bands));
}

using System.CommandLine;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;

namespace ClearView.Plotting.Commands;

/// <summary>Draws spectral haze with its fit, one chart for each reading.</summary>
internal sealed class HazeSpectrumCommand : SpecimenCommand
{
    private const string Text = """
        Spectral haze with its expanded uncertainty and the fitted power of the wavelength, one chart for each specimen.

        Examples:
          chart haze-spectrum film.csv --method astm
          chart haze-spectrum --roll R-0048 --count 3
        """;

    private readonly Option<bool> _bands = new("--bands")
    {
        Description = "Show UV-C, UV-B, UV-A, visible and photosynthetic bands, and the method's own bands, above the spectrum.",
    };

    public HazeSpectrumCommand(TimeProvider clock, IMethodChoice method)
        : base("haze-spectrum", Text, clock, method, needsSpectra: true) => Add(_bands);

    protected override ChartModel Build(ParseResult parsed, ChartReading reading) =>
        HazeSpectrumChart.Build(reading, parsed.GetValue(_bands));
}

using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Scattering;

namespace ClearView.Optics.Tests.Documentation;

/// <summary>Computes the worked example of docs/methods/scattering.md, which was derived by hand.</summary>
public sealed class ScatteringExampleTests
{
    [Fact]
    public void Scattering()
    {
        WorkedExample page = WorkedExample.Read("scattering.md", "scattering");
        WavelengthGrid grid = WavelengthGrid.FromWavelengths([400, 437.5, 475, 512.5, 550, 587.5, 625, 662.5, 700]);
        double[] haze = [.. grid.WavelengthsNm.ToArray().Select(nm => nm % 75 == 25 ? page.Given(FormattableString.Invariant($"H_{nm}")) : 0)];

        // A grid may not have gaps of 75 nm: the points between have no haze, which keeps them out of the fit.
        ScatteringExponent fit = ScatteringExponent.Fit(new TransmittanceScans(
            TransmittanceSpectrum.FromFractions(grid, [.. haze.Select(_ => 0.9)]),
            TransmittanceSpectrum.FromFractions(grid, [.. haze.Select(h => 0.9 * h / 100)])))!.Value;

        Assert.Equal(5, fit.PointCount);
        page.Shows("n", fit.Exponent);
        page.Shows("error", fit.StandardError);
        page.HasNoOtherFigures();
        Assert.StartsWith("particles about as large as the wavelength", fit.Suggestion, StringComparison.Ordinal);
    }
}

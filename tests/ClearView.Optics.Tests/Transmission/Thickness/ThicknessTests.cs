using ClearView.Optics.Colorimetry;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Thickness;

namespace ClearView.Optics.Tests.Transmission.Thickness;

public class ThicknessTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Between(440, 780, 10);

    // Handbooks give 92 % for a clear PMMA sheet (common practice, no source); by hand T = (1 − R)/(1 + R) with n = 1.49.
    [Fact]
    public void ClearPmma_WithoutAbsorption_TransmitsWhatHandbooksGive()
    {
        WavelengthGrid grid = WavelengthGrid.Between(380, 780, 5);
        double[] clear = [.. grid.WavelengthsNm.ToArray().Select(nm => InternalTransmittance.ToMeasured(1, Resin.Pmma.Index.At(nm)))];

        double percent = WeightingTable.For(grid, LightAndObserver.D65Degree2).Weigh(TransmittanceSpectrum.FromFractions(grid, clear)).Y;

        Assert.InRange(percent, 92.2, 92.6);
    }

    // Refractive indices at 589 nm: PMMA 1.491, polycarbonate 1.585, polystyrene 1.590 (handbook values, from memory).
    [Theory]
    [InlineData("pmma", 1.491)]
    [InlineData("pc", 1.585)]
    [InlineData("ps", 1.590)]
    public void Sellmeier_AtTheSodiumLine_IsTheHandbookIndex(string id, double expected)
    {
        Assert.True(Resin.TryFind(id, out Resin? resin));

        Assert.Equal(expected, resin.Index.At(589.3), 0.003);
    }

    [Fact]
    public void InternalTransmittance_ThereAndBack_IsExact()
    {
        for (double tau = 0; tau <= 1; tau += 0.01)
        {
            Assert.Equal(tau, InternalTransmittance.FromMeasured(InternalTransmittance.ToMeasured(tau, 1.585), 1.585), 1e-12);
        }
    }

    [Fact]
    public void Scale_ThereAndBack_IsExact()
    {
        double[] measured = [.. Enumerable.Range(0, Grid.Count).Select(i => 0.3 + (0.017 * i))];
        TransmittanceSpectrum spectrum = TransmittanceSpectrum.FromFractions(Grid, measured);

        TransmittanceSpectrum thick = new ThicknessScaling(Resin.Polycarbonate.Index, 1000, 2500).Scale(spectrum);
        TransmittanceSpectrum back = new ThicknessScaling(Resin.Polycarbonate.Index, 2500, 1000).Scale(thick);

        for (int i = 0; i < measured.Length; i++)
        {
            Assert.Equal(measured[i], back.Fractions[i], 1e-12);
        }
    }

    [Fact]
    public void Scale_WhereNoMatterTransmitsSoMuch_NamesTheWavelengths()
    {
        double[] measured = [.. Enumerable.Repeat(0.90, Grid.Count)];
        measured[3] = 0.94;

        var refused = Assert.Throws<UnphysicalTransmittanceException>(() =>
            new ThicknessScaling(Resin.Pmma.Index, 1000, 2000).Scale(TransmittanceSpectrum.FromFractions(Grid, measured)));

        Assert.Equal([470.0], refused.WavelengthsNm);
        Assert.Contains("470 nm", refused.Message, StringComparison.Ordinal);
    }

    // By hand: of 10 % haze 90 % stays unscattered; twice the thickness leaves 81 %.
    [Fact]
    public void ScaleBulkHaze_TwiceTheThickness_SquaresWhatStaysUnscattered() =>
        Assert.Equal(19, new ThicknessScaling(Resin.Pet.Index, 50, 100).ScaleBulkHaze(Haze.FromPercent(10)).Percent, 1e-12);
}

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Tests.Spectra;

public sealed class TransmittanceSpectrumTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Regular(400, 10, 2);

    [Fact]
    public void FromPercents_IsAHundredTimesTheFraction()
    {
        TransmittanceSpectrum spectrum = TransmittanceSpectrum.FromPercents(Grid, [92.5, 0.5]);

        Assert.Equal([0.925, 0.005], spectrum.Fractions.ToArray());
        Assert.Equal([92.5, 0.5], spectrum.ToPercents());
    }

    // Noise is kept as it is: a clear film may well read 100.02 %.
    [Theory]
    [InlineData(1.0002)]
    [InlineData(-0.0001)]
    [InlineData(-0.5)]
    [InlineData(2)]
    public void FromFractions_WithinTheLimits_IsKeptBitForBit(double fraction) =>
        Assert.Equal(fraction, TransmittanceSpectrum.FromFractions(Grid, [0.5, fraction]).Fractions[1]);

    [Theory]
    [InlineData(-0.500001)]
    [InlineData(2.000001)]
    [InlineData(92.5)]
    public void FromFractions_BeyondTheLimits_IsRefused(double fraction) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => TransmittanceSpectrum.FromFractions(Grid, [0.5, fraction]));

    [Theory]
    [InlineData(-50.0001)]
    [InlineData(200.0001)]
    public void FromPercents_BeyondTheLimits_IsRefused(double percent) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => TransmittanceSpectrum.FromPercents(Grid, [50, percent]));

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void FromFractions_NotFinite_IsRefusedWithItsWavelength(double value)
    {
        ArgumentException error = Assert.ThrowsAny<ArgumentException>(() => TransmittanceSpectrum.FromFractions(Grid, [0.5, value]));

        Assert.Contains("410 nm", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    public void FromFractions_WrongCount_IsRefused(int count) =>
        Assert.Throws<ArgumentException>(() => TransmittanceSpectrum.FromFractions(Grid, new double[count]));

    [Fact]
    public void FromFractions_CallersArray_IsCopied()
    {
        double[] fractions = [0.5, 0.6];
        TransmittanceSpectrum spectrum = TransmittanceSpectrum.FromFractions(Grid, fractions);

        fractions[0] = 0.9;

        Assert.Equal(0.5, spectrum.Fractions[0]);
    }
}

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Tests.Transmission;

public sealed class HazeTests
{
    [Theory]
    [InlineData(0.0001, true)]
    [InlineData(0, false)]
    [InlineData(-0.0001, false)]
    public void FromTransmittances_NeedsTransmittedLight(double total, bool defined) =>
        Assert.Equal(
            defined,
            Haze.FromTransmittances(DiffuseLuminousTransmittance.FromFraction(0.00001), LuminousTransmittance.FromFraction(total)) is not null);

    // Noise may push the haze of a clear film below zero: it is kept, not clamped.
    [Fact]
    public void FromTransmittances_SlightlyNegativeDiffuse_IsKept() =>
        Assert.Equal(
            -0.01,
            Haze.FromTransmittances(DiffuseLuminousTransmittance.FromPercent(-0.0092), LuminousTransmittance.FromPercent(92))!.Value.Percent,
            1e-12);

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void From_NotFinite_IsRefused(double value)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Haze.FromFraction(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => Haze.FromPercent(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => LuminousTransmittance.FromFraction(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => DiffuseLuminousTransmittance.FromPercent(value));
        Assert.Throws<ArgumentOutOfRangeException>(() => RegularLuminousTransmittance.FromFraction(value));
    }

    [Fact]
    public void FromPercent_IsAHundredthOfIt() => Assert.Equal(0.025, Haze.FromPercent(2.5).Fraction, 1e-15);

    // ASTM D1003: up to 30 %, illuminant C or A, 2° observer. ISO 14782: up to 40 %, D65, 2° observer.
    [Fact]
    public void Standards_SayWhatTheyCover()
    {
        Assert.All(
            [HazeStandard.AstmD1003ProcedureA, HazeStandard.AstmD1003ProcedureB],
            standard =>
            {
                Assert.Equal(30, standard.HighestHazePercent);
                Assert.Equal([LightAndObserver.CDegree2, LightAndObserver.ADegree2], standard.NamedPairs);
            });
        Assert.All(
            [HazeStandard.Iso14782WithIso13468Part1, HazeStandard.Iso14782WithIso13468Part2],
            standard =>
            {
                Assert.Equal(40, standard.HighestHazePercent);
                Assert.Equal([LightAndObserver.D65Degree2], standard.NamedPairs);
            });
    }
}

using ClearView.Optics.Tests.Generators;
using ClearView.Optics.Transmission;

using FsCheck.Xunit;

namespace ClearView.Optics.Tests.Transmission;

public sealed class HazemeterReadingsTests
{
    // By hand, after the calculation clause of ASTM D1003: Tt = 92 %, Td = 1.84 %, haze = 1.84/92 = 2 %.
    [Fact]
    public void Create_ByHand()
    {
        HazemeterReadings readings = HazemeterReadings.Create(100, 92, 0.5, 2.3);

        Assert.Equal(92, readings.LuminousTransmittance.Percent, 1e-12);
        Assert.Equal(1.84, readings.DiffuseLuminousTransmittance.Percent, 1e-12);
        Assert.Equal(2, HazePercent(readings), 1e-12);
    }

    // ISO 14782 writes the same as H = 100 (τ4/τ2 − τ3/τ1): another route to the same number.
    [Property(Replay = "(20240307,21)", MaxTest = 500, Arbitrary = [typeof(Cases)])]
    public void Haze_IsThatOfTheFormulaOfIso14782(SphereCase one)
    {
        ArgumentNullException.ThrowIfNull(one);
        HazemeterReadings readings = Create(one, 1);

        double expected = 100 * ((one.SpecimenScatter / one.Total) - (one.InstrumentScatter / one.Incident));

        Assert.Equal(expected, HazePercent(readings), 1e-9);
    }

    [Property(Replay = "(20240308,23)", MaxTest = 500, Arbitrary = [typeof(Cases)])]
    public void Haze_AnotherDetectorScale_IsTheSame(SphereCase one)
    {
        ArgumentNullException.ThrowIfNull(one);

        Assert.Equal(HazePercent(Create(one, 1)), HazePercent(Create(one, one.DetectorGain)), 1e-9);
    }

    // More scattered light at the same transmittance is more haze; limits 0 and 100 %.
    [Property(Replay = "(20240309,25)", MaxTest = 500, Arbitrary = [typeof(Cases)])]
    public void Haze_GrowsWithScatteredLightAndStaysBetweenItsLimits(SphereCase one)
    {
        ArgumentNullException.ThrowIfNull(one);

        double haze = HazePercent(Create(one, 1));
        double more = HazePercent(Create(one with { SpecimenScatter = one.SpecimenScatter + (0.01 * one.Total) }, 1));

        Assert.InRange(haze, -1e-9, 100 + 1e-9);
        Assert.Equal(haze + 1, more, 1e-9);
    }

    [Theory]
    [InlineData(0, 1, 1, 1)]
    [InlineData(-1, 1, 1, 1)]
    [InlineData(double.NaN, 1, 1, 1)]
    [InlineData(double.PositiveInfinity, 1, 1, 1)]
    [InlineData(100, double.NaN, 1, 1)]
    [InlineData(100, 90, double.NaN, 1)]
    [InlineData(100, 90, 1, double.NegativeInfinity)]
    [InlineData(100, 200.1, 0, 1)]
    [InlineData(100, -50.1, 0, 1)]
    [InlineData(100, 90, 0, 200.1)]
    [InlineData(100, 90, 0, -50.1)]
    public void Create_Impossible_IsRefused(double t1, double t2, double t3, double t4) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => HazemeterReadings.Create(t1, t2, t3, t4));

    [Theory]
    [InlineData(100, 200, 0, 200)]
    [InlineData(100, -50, 0, -50)]
    [InlineData(1e-300, 1e-300, 0, 0)]
    [InlineData(1e300, 1e300, 0, 0)]
    public void Create_OnTheLimits_IsAccepted(double t1, double t2, double t3, double t4) =>
        Assert.Equal(t2 / t1, HazemeterReadings.Create(t1, t2, t3, t4).LuminousTransmittance.Fraction);

    private static HazemeterReadings Create(SphereCase one, double gain) => HazemeterReadings.Create(
        one.Incident * gain, one.Total * gain, one.InstrumentScatter * gain, one.SpecimenScatter * gain);

    private static double HazePercent(HazemeterReadings readings) =>
        Haze.FromTransmittances(readings.DiffuseLuminousTransmittance, readings.LuminousTransmittance)!.Value.Percent;
}

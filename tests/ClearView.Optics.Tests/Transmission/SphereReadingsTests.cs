using ClearView.Optics.Spectra;
using ClearView.Optics.Tests.Generators;
using ClearView.Optics.Transmission;

using FsCheck.Xunit;

namespace ClearView.Optics.Tests.Transmission;

public sealed class SphereReadingsTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Regular(500, 10, 2);

    // By hand, after the calculation clause of ASTM D1003:
    // 500 nm: Tt = 92/100 = 0.92, Td = (2.3 − 0.5·92/100)/100 = 0.0184.
    // 510 nm: Tt = 45/50 = 0.9, Td = (3 − 1·45/50)/50 = 0.042.
    [Fact]
    public void Reduce_ByHand()
    {
        TransmittanceScans scans = Readings([100, 50], [92, 45], [0.5, 1], [2.3, 3]).Reduce();

        Assert.Equal(0.92, scans.Total.Fractions[0], 1e-15);
        Assert.Equal(0.9, scans.Total.Fractions[1], 1e-15);
        Assert.Equal(0.0184, scans.Diffuse!.Fractions[0], 1e-15);
        Assert.Equal(0.042, scans.Diffuse.Fractions[1], 1e-15);
    }

    // Limit: with nothing in the beam (T2 = T1, T4 = T3) all is transmitted and nothing scattered.
    [Property(Replay = "(20240305,17)", MaxTest = 200, Arbitrary = [typeof(Cases)])]
    public void Reduce_NoSpecimen_IsClear(SphereCase one)
    {
        ArgumentNullException.ThrowIfNull(one);

        TransmittanceScans scans = Readings(
            [one.Incident, 1], [one.Incident, 1], [one.InstrumentScatter, 0], [one.InstrumentScatter, 0]).Reduce();

        Assert.Equal(1, scans.Total.Fractions[0]);
        Assert.Equal(0, scans.Diffuse!.Fractions[0], 1e-15);
    }

    // Only ratios count: the detector's scale cancels.
    [Property(Replay = "(20240306,19)", MaxTest = 200, Arbitrary = [typeof(Cases)])]
    public void Reduce_AnotherDetectorScale_ChangesNothing(SphereCase one)
    {
        ArgumentNullException.ThrowIfNull(one);
        double g = one.DetectorGain;

        TransmittanceScans scans = Readings(
            [one.Incident, one.Incident * g],
            [one.Total, one.Total * g],
            [one.InstrumentScatter, one.InstrumentScatter * g],
            [one.SpecimenScatter, one.SpecimenScatter * g]).Reduce();

        Assert.Equal(scans.Total.Fractions[0], scans.Total.Fractions[1], 1e-12);
        Assert.Equal(scans.Diffuse!.Fractions[0], scans.Diffuse.Fractions[1], 1e-12);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    public void Constructor_IncidentNotAboveZero_IsRefused(double incident) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Readings([100, incident], [92, 1], [0, 0], [1, 0]));

    [Fact]
    public void Constructor_AnotherGrid_IsRefused()
    {
        var on = new Spectrum(Grid, [1, 1]);
        var off = new Spectrum(WavelengthGrid.Regular(501, 10, 2), [1, 1]);

        Assert.Throws<ArgumentException>(() => new SphereReadings(on, off, on, on));
        Assert.Throws<ArgumentException>(() => new SphereReadings(on, on, off, on));
        Assert.Throws<ArgumentException>(() => new SphereReadings(on, on, on, off));
    }

    // 200 % is the limit of what is kept as noise.
    [Theory]
    [InlineData(200, true)]
    [InlineData(200.1, false)]
    public void Reduce_TransmittanceBeyondPhysical_IsRefused(double total, bool accepted)
    {
        SphereReadings readings = Readings([100, 100], [90, total], [0, 0], [1, 1]);

        if (accepted)
        {
            Assert.Equal(2, readings.Reduce().Total.Fractions[1]);
        }
        else
        {
            Assert.Throws<ArgumentOutOfRangeException>(readings.Reduce);
        }
    }

    private static SphereReadings Readings(double[] t1, double[] t2, double[] t3, double[] t4) =>
        new(new Spectrum(Grid, t1), new Spectrum(Grid, t2), new Spectrum(Grid, t3), new Spectrum(Grid, t4));
}

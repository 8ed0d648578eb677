using ClearView.Optics.Colorimetry;
using ClearView.Optics.Spectra;

using FsCheck;
using FsCheck.Fluent;

namespace ClearView.Optics.Tests.Generators;

/// <summary>Draws what the properties are tried on. Each property states its seed, so that a failure can be repeated.</summary>
public static class Cases
{
    /// <summary>Sphere readings: transmittance 1-100 %, instrument scatter up to 5 %, haze 0-100 %, gain 10⁻³ to 10³.</summary>
    public static Arbitrary<SphereCase> Sphere() =>
        (from incident in Between(1, 1000)
         from total in Between(0.01, 1)
         from instrument in Between(0, 0.05)
         from haze in Between(0, 1)
         from exponent in Between(-3, 3)
         select new SphereCase(
             incident,
             incident * total,
             incident * instrument,
             (incident * instrument * total) + (incident * total * haze),
             Math.Pow(10, exponent))).ToArbitrary();

    /// <summary>Colours: L* 0-100, a* and b* within ±100.</summary>
    public static Arbitrary<CieLab> Lab() =>
        (from l in Between(0, 100)
         from a in Between(-100, 100)
         from b in Between(-100, 100)
         select new CieLab(l, a, b)).ToArbitrary();

    /// <summary>Transmittance spectra on grids of 1 to 20 nm over 360-780 nm: each value 0-1, drawn by itself.</summary>
    public static Arbitrary<TransmittanceSpectrum> Spectra() =>
        (from interval in Gen.Elements(1.0, 2.0, 5.0, 10.0, 20.0)
         let grid = WavelengthGrid.Between(360, 780, interval)
         from fractions in Between(0, 1).ArrayOf(grid.Count)
         select TransmittanceSpectrum.FromFractions(grid, fractions)).ToArbitrary();

    private static Gen<double> Between(double low, double high) =>
        Gen.Choose(0, 1_000_000).Select(step => low + ((high - low) * step / 1_000_000));
}

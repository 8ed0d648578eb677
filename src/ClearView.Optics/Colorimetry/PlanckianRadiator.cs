using ClearView.Optics.Spectra;

namespace ClearView.Optics.Colorimetry;

/// <summary>Planck's law, relative (CIE 15, section on Planckian radiators).</summary>
internal static class PlanckianRadiator
{
    // Second radiation constant, nm·K (CIE 15: 1.4388·10⁻² m·K).
    private const double C2NmKelvin = 1.4388e7;

    /// <summary>Relative spectral power, 100 at 560 nm.</summary>
    public static Spectrum RelativePower(double temperatureK, WavelengthGrid grid)
    {
        if (!(temperatureK is >= 1000 and <= 25000))
        {
            throw new ArgumentOutOfRangeException(nameof(temperatureK), temperatureK, "expected 1000 to 25000 K.");
        }

        double reference = Emittance(560, temperatureK);
        double[] power = Array.ConvertAll(grid.WavelengthsNm.ToArray(), nm => 100 * Emittance(nm, temperatureK) / reference);
        return new Spectrum(grid, power);
    }

    private static double Emittance(double nm, double kelvin) =>
        Math.Pow(nm / 560, -5) / double.ExpM1(C2NmKelvin / (nm * kelvin));
}

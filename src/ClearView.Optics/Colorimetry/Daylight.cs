using ClearView.Optics.Spectra;

namespace ClearView.Optics.Colorimetry;

/// <summary>Daylight illuminants by formula (CIE 15, section on other D illuminants).</summary>
internal static class Daylight
{
    /// <summary>Relative spectral power of daylight, linear between the 5 nm components as CIE 15 directs.</summary>
    /// <param name="colourTemperatureK">Correlated colour temperature, K, in [4000, 25000].</param>
    /// <param name="target">The wavelengths wanted, within 300-830 nm.</param>
    public static Spectrum RelativePower(double colourTemperatureK, WavelengthGrid target)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(colourTemperatureK, 4000);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(colourTemperatureK, 25000);
        double t = colourTemperatureK;
        double x = t <= 7000
            ? (-4.6070e9 / (t * t * t)) + (2.9678e6 / (t * t)) + (0.09911e3 / t) + 0.244063
            : (-2.0064e9 / (t * t * t)) + (1.9018e6 / (t * t)) + (0.24748e3 / t) + 0.237040;
        double y = (-3.000 * x * x) + (2.870 * x) - 0.275;
        double denominator = 0.0241 + (0.2562 * x) - (0.7341 * y);

        // CIE 15 rounds both factors to three decimals, and its printed tables rest on that.
        double m1 = Math.Round((-1.3515 - (1.7703 * x) + (5.9114 * y)) / denominator, 3);
        double m2 = Math.Round((0.0300 - (31.4424 * x) + (30.0717 * y)) / denominator, 3);

        Spectrum[] components = CieTables.Read("cie-daylight-components-5nm.csv");
        WavelengthGrid grid = components[0].Grid;
        var power = new double[grid.Count];
        for (int i = 0; i < power.Length; i++)
        {
            power[i] = components[0][i] + (m1 * components[1][i]) + (m2 * components[2][i]);
        }

        return LinearInterpolation.Resample(new Spectrum(grid, power), target);
    }
}

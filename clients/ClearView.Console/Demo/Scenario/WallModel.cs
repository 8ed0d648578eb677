namespace ClearView.Console.Demo.Scenario;

/// <summary>A sheet of plastic as a few numbers: enough physics for scans that look like real ones.</summary>
/// <remarks>
/// Refractive index after Cauchy, n = A + B/λ²; loss at both faces after Fresnel at normal incidence, with all internal
/// reflections of a plane-parallel plate; absorption after Bouguer and Lambert, falling exponentially from the blue;
/// scattering as a power of the wavelength.
/// </remarks>
internal sealed record WallModel
{
    private const double ReferenceNm = 550;
    private const double BlueNm = 380;

    /// <summary>Thickness, mm.</summary>
    public required double ThicknessMm { get; init; }

    /// <summary>Cauchy's A.</summary>
    public required double IndexAtInfinity { get; init; }

    /// <summary>Cauchy's B, nm².</summary>
    public required double CauchyNm2 { get; init; }

    /// <summary>Decadic absorbance at 380 nm, per mm.</summary>
    public required double BlueAbsorbancePerMm { get; init; }

    /// <summary>Distance over which the absorbance falls to 1/e, nm.</summary>
    public required double BlueDecayNm { get; init; }

    /// <summary>Spectral haze at 550 nm, %.</summary>
    public required double HazeAt550Percent { get; init; }

    /// <summary>n of haze ~ λ⁻ⁿ.</summary>
    public required double ScatterExponent { get; init; }

    /// <summary>Total transmittance, fraction.</summary>
    public double Total(double wavelengthNm)
    {
        double index = IndexAtInfinity + (CauchyNm2 / (wavelengthNm * wavelengthNm));
        double reflected = Math.Pow((index - 1) / (index + 1), 2);
        double absorbance = BlueAbsorbancePerMm * ThicknessMm * Math.Exp((BlueNm - wavelengthNm) / BlueDecayNm);
        double inside = Math.Pow(10, -absorbance);
        double afterBothFaces = (1 - reflected) * (1 - reflected) * inside;
        return afterBothFaces / (1 - (reflected * reflected * inside * inside));
    }

    /// <summary>Diffuse transmittance, fraction.</summary>
    public double Diffuse(double wavelengthNm)
    {
        double haze = HazeAt550Percent / 100 * Math.Pow(ReferenceNm / wavelengthNm, ScatterExponent);
        return Total(wavelengthNm) * Math.Min(haze, 1);
    }
}

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission.Thickness;

/// <summary>Transmittance between the surfaces of a plane-parallel specimen, from what was measured across both, and back.</summary>
/// <remarks>
/// Fresnel reflection R = ((n − 1)/(n + 1))² at normal incidence from air at both surfaces, incoherent multiple reflections:
/// T = (1 − R)²·τ / (1 − R²·τ²). Smooth parallel surfaces are assumed; a hazy surface reflects differently.
/// </remarks>
public static class InternalTransmittance
{
    /// <summary>Reflectance of one surface at normal incidence (Fresnel).</summary>
    /// <param name="index">Refractive index, above 1.</param>
    public static double SurfaceReflectance(double index)
    {
        double ratio = (index - 1) / (index + 1);
        return ratio * ratio;
    }

    /// <summary>Internal transmittance of a measured one, as a fraction.</summary>
    /// <param name="transmittance">Measured transmittance, fraction.</param>
    /// <param name="index">Refractive index, above 1.</param>
    /// <remarks>The root of R²·T·τ² + (1 − R)²·τ − T = 0, in the form that does not cancel.</remarks>
    public static double FromMeasured(double transmittance, double index)
    {
        double r = SurfaceReflectance(index);
        double pass = (1 - r) * (1 - r);
        return 2 * transmittance / (pass + Math.Sqrt((pass * pass) + (4 * r * r * transmittance * transmittance)));
    }

    /// <summary>What would be measured of an internal transmittance, as a fraction.</summary>
    /// <param name="internalTransmittance">Internal transmittance, fraction.</param>
    /// <param name="index">Refractive index, above 1.</param>
    public static double ToMeasured(double internalTransmittance, double index)
    {
        double r = SurfaceReflectance(index);
        double rt = r * internalTransmittance;
        return (1 - r) * (1 - r) * internalTransmittance / (1 - (rt * rt));
    }

    /// <summary>Derivative of the internal transmittance with respect to the measured one.</summary>
    internal static double DerivativeFromMeasured(double transmittance, double index)
    {
        double r = SurfaceReflectance(index);
        double pass = (1 - r) * (1 - r);
        double root = Math.Sqrt((pass * pass) + (4 * r * r * transmittance * transmittance));
        return 2 * pass / (root * (pass + root));
    }

    /// <summary>Derivative of the measured transmittance with respect to the internal one.</summary>
    internal static double DerivativeToMeasured(double internalTransmittance, double index)
    {
        double r = SurfaceReflectance(index);
        double square = r * r * internalTransmittance * internalTransmittance;
        return (1 - r) * (1 - r) * (1 + square) / ((1 - square) * (1 - square));
    }

    /// <summary>Internal transmittance of a spectrum.</summary>
    /// <param name="measured">Measured transmittance.</param>
    /// <param name="index">Refractive index.</param>
    public static Spectrum FromMeasured(TransmittanceSpectrum measured, IRefractiveIndex index)
    {
        ArgumentNullException.ThrowIfNull(measured);
        ArgumentNullException.ThrowIfNull(index);
        var values = new double[measured.Grid.Count];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = FromMeasured(measured.Fractions[i], index.At(measured.Grid[i]));
        }

        return new Spectrum(measured.Grid, values);
    }
}

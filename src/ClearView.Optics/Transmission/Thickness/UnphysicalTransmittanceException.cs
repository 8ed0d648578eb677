using System.Collections.Immutable;
using System.Globalization;

namespace ClearView.Optics.Transmission.Thickness;

/// <summary>Internal transmittance lies outside what matter can do, so that nothing may be scaled from it.</summary>
public sealed class UnphysicalTransmittanceException : ArgumentException
{
    /// <summary>Names the wavelengths.</summary>
    /// <param name="wavelengthsNm">The wavelengths, nm.</param>
    public UnphysicalTransmittanceException(ImmutableArray<double> wavelengthsNm)
        : base("Internal transmittance is below 0 or above 100.5 % at " + Describe(wavelengthsNm) +
            "; check the refractive index, the 100 % line and the 0 % line.")
    {
        WavelengthsNm = wavelengthsNm;
    }

    /// <summary>The wavelengths, nm.</summary>
    public ImmutableArray<double> WavelengthsNm { get; }

    private static string Describe(ImmutableArray<double> wavelengthsNm) =>
        string.Join(", ", wavelengthsNm.Take(10).Select(nm => nm.ToString("0.###", CultureInfo.InvariantCulture)))
        + (wavelengthsNm.Length > 10 ? string.Create(CultureInfo.InvariantCulture, $" and {wavelengthsNm.Length - 10} more") : "")
        + " nm";
}

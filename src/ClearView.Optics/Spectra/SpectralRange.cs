using System.Globalization;

namespace ClearView.Optics.Spectra;

/// <summary>A range of wavelengths, nm, ends inclusive.</summary>
/// <param name="FromNm">First wavelength, nm.</param>
/// <param name="ToNm">Last wavelength, nm.</param>
/// <remarks>The default value is empty of meaning (0-0 nm).</remarks>
public readonly record struct SpectralRange(double FromNm, double ToNm)
{
    /// <summary>360-780 nm, over which tristimulus values are summed (ASTM E308, clause on calculation).</summary>
    public static SpectralRange Tristimulus { get; } = new(360, 780);

    /// <summary>400-700 nm, the least from which luminous and colour values are given. Our limit: below it, holding the
    /// end values would no longer be a correction but an invention.</summary>
    public static SpectralRange MinimumUseful { get; } = new(400, 700);

    /// <summary>For example "360-380 nm", or "370 nm" for a single wavelength.</summary>
    public override string ToString() => FromNm == ToNm
        ? string.Create(CultureInfo.InvariantCulture, $"{FromNm:0.###} nm")
        : string.Create(CultureInfo.InvariantCulture, $"{FromNm:0.###}-{ToNm:0.###} nm");
}

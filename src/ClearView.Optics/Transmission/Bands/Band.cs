using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission.Bands;

/// <summary>A band of wavelengths.</summary>
/// <param name="Id">Identifier, for example "uv-a".</param>
/// <param name="Name">Name in words.</param>
/// <param name="Range">The wavelengths, nm.</param>
public sealed record Band(string Id, string Name, SpectralRange Range)
{
    /// <summary>UV-C, 200-280 nm: the part of CIE's 100-280 nm that passes air and can be measured on a benchtop.</summary>
    public static Band UvC { get; } = new("uv-c", "UV-C", new SpectralRange(200, 280));

    /// <summary>UV-B, 280-315 nm (CIE S 017).</summary>
    public static Band UvB { get; } = new("uv-b", "UV-B", new SpectralRange(280, 315));

    /// <summary>UV-A, 315-400 nm (CIE S 017).</summary>
    public static Band UvA { get; } = new("uv-a", "UV-A", new SpectralRange(315, 400));

    /// <summary>Visible, 380-780 nm (CIE S 017).</summary>
    public static Band Visible { get; } = new("visible", "visible", new SpectralRange(380, 780));

    /// <summary>Photosynthetically active radiation (PAR), 400-700 nm (common practice, no source).</summary>
    public static Band Photosynthetic { get; } = new("photosynthetic", "PAR", new SpectralRange(400, 700));

    /// <summary>Every named band.</summary>
    public static ImmutableArray<Band> All { get; } = [UvC, UvB, UvA, Visible, Photosynthetic];

    /// <summary>Finds a named band.</summary>
    /// <param name="id">For example "uv-a".</param>
    /// <param name="band">The band, where there is one.</param>
    public static bool TryFind(string? id, [NotNullWhen(true)] out Band? band)
    {
        band = All.FirstOrDefault(candidate => string.Equals(candidate.Id, id, StringComparison.OrdinalIgnoreCase));
        return band is not null;
    }

    /// <summary>A band of one's own.</summary>
    /// <param name="fromNm">First wavelength, nm.</param>
    /// <param name="toNm">Last wavelength, nm, above the first.</param>
    /// <exception cref="ArgumentOutOfRangeException">The last wavelength is not above the first, or one is outside 200-1100 nm.</exception>
    public static Band Between(double fromNm, double toNm)
    {
        if (!(fromNm >= WavelengthGrid.MinimumNm && toNm > fromNm && toNm <= WavelengthGrid.MaximumNm))
        {
            throw new ArgumentOutOfRangeException(nameof(toNm), toNm, "expected two ascending wavelengths within 200-1100 nm.");
        }

        string id = string.Create(CultureInfo.InvariantCulture, $"{fromNm:0.###}-{toNm:0.###}");
        return new Band(id, $"{id} nm", new SpectralRange(fromNm, toNm));
    }
}

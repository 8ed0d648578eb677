using System.Collections.Immutable;

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Colorimetry;

/// <summary>A CIE standard colorimetric observer: colour-matching functions at 1 nm over 360-830 nm.</summary>
/// <remarks>
/// From the 5 nm tables of CIE 15 by Sprague interpolation (CIE 167). There is one instance of each observer, so that
/// equality is identity. Immutable, thread-safe.
/// </remarks>
public sealed class Observer
{
    private readonly Lazy<SpectralLocus> _locus;

    private Observer(string name, string description, string fileName)
    {
        Name = name;
        Description = description;
        Spectrum[] table = CieTables.Read(fileName);
        XBar = SpragueInterpolation.Resample(table[0], CieTables.ObserverGrid);
        YBar = SpragueInterpolation.Resample(table[1], CieTables.ObserverGrid);
        ZBar = SpragueInterpolation.Resample(table[2], CieTables.ObserverGrid);
        _locus = new Lazy<SpectralLocus>(() => new SpectralLocus(this));
    }

    /// <summary>CIE 1931 standard colorimetric observer, 2° field.</summary>
    public static Observer Cie1931Degree2 { get; } =
        new("2°", "CIE 1931 standard colorimetric observer, 2° field", "cie-1931-2deg-5nm.csv");

    /// <summary>CIE 1964 standard colorimetric observer, 10° field.</summary>
    public static Observer Cie1964Degree10 { get; } =
        new("10°", "CIE 1964 standard colorimetric observer, 10° field", "cie-1964-10deg-5nm.csv");

    /// <summary>Every observer.</summary>
    public static ImmutableArray<Observer> All { get; } = [Cie1931Degree2, Cie1964Degree10];

    /// <summary>Short name: "2°" or "10°".</summary>
    public string Name { get; }

    /// <summary>Name in full.</summary>
    public string Description { get; }

    /// <summary>x̄ at 1 nm, 360-830 nm.</summary>
    public Spectrum XBar { get; }

    /// <summary>ȳ at 1 nm, 360-830 nm; for the 2° observer this is V(λ).</summary>
    public Spectrum YBar { get; }

    /// <summary>z̄ at 1 nm, 360-830 nm.</summary>
    public Spectrum ZBar { get; }

    /// <summary>Chromaticities of the spectral colours for this observer.</summary>
    public SpectralLocus Locus => _locus.Value;

    /// <summary>The short name.</summary>
    public override string ToString() => Name;
}

using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Colorimetry;

/// <summary>A CIE illuminant: relative spectral power at 1 nm, used over 360-780 nm.</summary>
/// <remarks>There is one instance of each, so that equality is identity. Immutable, thread-safe.</remarks>
public sealed class Illuminant
{
    // CIE 15 tables C from 300 nm and to 780 nm; tristimulus sums need no more than this.
    private static readonly WavelengthGrid PowerGrid = WavelengthGrid.Between(360, 780, 1);

    private Illuminant(string name, string description, Spectrum relativePower)
    {
        Name = name;
        Description = description;
        RelativePower = relativePower;
    }

    /// <summary>CIE standard illuminant A: tungsten light, Planckian at 2856 K. Sprague from the 5 nm table.</summary>
    public static Illuminant A { get; } = new(
        "A",
        "CIE standard illuminant A, tungsten light",
        SpragueInterpolation.Resample(CieTables.Read("cie-illuminant-a-5nm.csv")[0], PowerGrid));

    /// <summary>CIE illuminant C: average daylight without ultraviolet. Sprague from the 5 nm table.</summary>
    public static Illuminant C { get; } = new(
        "C",
        "CIE illuminant C, average daylight without ultraviolet",
        SpragueInterpolation.Resample(CieTables.Read("cie-illuminant-c-5nm.csv")[0], PowerGrid));

    /// <summary>CIE illuminant D50: daylight at 5003 K, by the daylight formula of CIE 15.</summary>
    public static Illuminant D50 { get; } = new(
        "D50",
        "CIE illuminant D50, daylight at 5003 K",
        Daylight.RelativePower(5000 * 1.4388 / 1.4380, PowerGrid));

    /// <summary>CIE standard illuminant D65: daylight at 6504 K. Linear from the 5 nm table, as CIE defines it.</summary>
    public static Illuminant D65 { get; } = new(
        "D65",
        "CIE standard illuminant D65, daylight at 6504 K",
        LinearInterpolation.Resample(CieTables.Read("cie-illuminant-d65-5nm.csv")[0], PowerGrid));

    /// <summary>Every illuminant.</summary>
    public static ImmutableArray<Illuminant> All { get; } = [A, C, D50, D65];

    /// <summary>CIE name, for example "D65".</summary>
    public string Name { get; }

    /// <summary>Name in words.</summary>
    public string Description { get; }

    /// <summary>Relative spectral power at 1 nm; only ratios count.</summary>
    public Spectrum RelativePower { get; }

    /// <summary>Finds an illuminant by its CIE name, without regard to case.</summary>
    /// <param name="name">For example "D65".</param>
    /// <param name="illuminant">The illuminant, where there is one.</param>
    public static bool TryFind(string? name, [NotNullWhen(true)] out Illuminant? illuminant)
    {
        illuminant = All.FirstOrDefault(candidate => string.Equals(candidate.Name, name, StringComparison.OrdinalIgnoreCase));
        return illuminant is not null;
    }

    /// <summary>The CIE name.</summary>
    public override string ToString() => Name;
}

using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.RegularExpressions;

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Colorimetry;

/// <summary>An illuminant: relative spectral power at 1 nm over 360-780 nm.</summary>
/// <remarks>Equal when name and spectral power are equal. Immutable, thread-safe.</remarks>
public sealed partial class Illuminant : IEquatable<Illuminant>
{
    // Tristimulus sums need no more than this (ASTM E308).
    private static readonly WavelengthGrid PowerGrid = WavelengthGrid.Between(360, 780, 1);

    private Illuminant(string name, string description, Spectrum relativePower, ImmutableArray<SpectralRange> extension = default)
    {
        Name = name;
        Description = description;
        RelativePower = relativePower;
        Extension = extension.IsDefault ? [] : extension;
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
    public static Illuminant D50 { get; } = NamedDaylight("D50", 5000);

    /// <summary>CIE illuminant D55: daylight at 5503 K, by the daylight formula of CIE 15.</summary>
    public static Illuminant D55 { get; } = NamedDaylight("D55", 5500);

    /// <summary>CIE standard illuminant D65: daylight at 6504 K. Linear from the 5 nm table, as CIE defines it.</summary>
    public static Illuminant D65 { get; } = new(
        "D65",
        "CIE standard illuminant D65, daylight at 6504 K",
        LinearInterpolation.Resample(CieTables.Read("cie-illuminant-d65-5nm.csv")[0], PowerGrid));

    /// <summary>CIE illuminant D75: daylight at 7504 K, by the daylight formula of CIE 15.</summary>
    public static Illuminant D75 { get; } = NamedDaylight("D75", 7500);

    /// <summary>The equi-energy illuminant E: the same power at every wavelength.</summary>
    public static Illuminant E { get; } = new(
        "E",
        "Equi-energy illuminant E",
        new Spectrum(PowerGrid, Enumerable.Repeat(100.0, PowerGrid.Count).ToArray()));

    /// <summary>CIE illuminants FL1 to FL12: typical fluorescent lamps. Linear from the 5 nm tables, no power below 380 nm.</summary>
    public static ImmutableArray<Illuminant> FluorescentLamps { get; } =
    [
        .. CieTables.Read("cie-illuminants-f-5nm.csv").Select((table, i) => new Illuminant(
            string.Create(CultureInfo.InvariantCulture, $"FL{i + 1}"),
            string.Create(CultureInfo.InvariantCulture, $"CIE illuminant FL{i + 1}, fluorescent lamp"),
            WithZeroBeyond(table))),
    ];

    /// <summary>Every illuminant that CIE tables or names.</summary>
    public static ImmutableArray<Illuminant> All { get; } = [A, C, D50, D55, D65, D75, E, .. FluorescentLamps];

    /// <summary>Name, for example "D65", "FL11", "daylight-5200K".</summary>
    public string Name { get; }

    /// <summary>Name in words.</summary>
    public string Description { get; }

    /// <summary>Relative spectral power at 1 nm, 360-780 nm; only ratios count.</summary>
    public Spectrum RelativePower { get; }

    /// <summary>The parts of 360-780 nm over which a user's own spectral power was held at its end value; empty otherwise.</summary>
    public ImmutableArray<SpectralRange> Extension { get; }

    /// <summary>Daylight at a correlated colour temperature, by the formula of CIE 15.</summary>
    /// <param name="colourTemperatureK">Correlated colour temperature, K, in [4000, 25000].</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    public static Illuminant Daylight(double colourTemperatureK) => new(
        string.Create(CultureInfo.InvariantCulture, $"daylight-{colourTemperatureK}K"),
        string.Create(CultureInfo.InvariantCulture, $"Daylight at {colourTemperatureK} K"),
        Colorimetry.Daylight.RelativePower(colourTemperatureK, PowerGrid));

    /// <summary>A Planckian radiator (CIE 15), c2 = 1.4388·10⁻² m·K, refractive index of air taken as 1.</summary>
    /// <param name="temperatureK">Temperature, K, in [1000, 25000].</param>
    /// <exception cref="ArgumentOutOfRangeException">The temperature is outside its range.</exception>
    public static Illuminant Planckian(double temperatureK) => new(
        string.Create(CultureInfo.InvariantCulture, $"planckian-{temperatureK}K"),
        string.Create(CultureInfo.InvariantCulture, $"Planckian radiator at {temperatureK} K"),
        PlanckianRadiator.RelativePower(temperatureK, PowerGrid));

    /// <summary>A user's own lamp. Linear between its figures, since lamps have lines; ends held where they are missing.</summary>
    /// <param name="name">Name, 1 to 40 characters, not that of another illuminant.</param>
    /// <param name="relativePower">Spectral power reaching over 400-700 nm at least; nowhere below 0, somewhere above.</param>
    /// <exception cref="ArgumentException">The name is taken or unusable, or the power is negative or nowhere above 0.</exception>
    /// <exception cref="SpectrumRangeException">The power does not reach over 400-700 nm.</exception>
    public static Illuminant FromSpectralPower(string name, Spectrum relativePower)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentNullException.ThrowIfNull(relativePower);
        if (name.Length > 40 || TryFind(name, out _))
        {
            throw new ArgumentException($"The name \"{name}\" is too long or that of another illuminant; expected 1 to 40 characters of your own.", nameof(name));
        }

        SpectrumRangeException.ThrowIfShort(relativePower.Grid, SpectralRange.MinimumUseful);
        foreach (double power in relativePower.Values)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(power, nameof(relativePower));
        }

        Spectrum resampled = WithEndsHeld(relativePower);
        if (resampled.Values.IndexOfAnyExcept(0.0) < 0)
        {
            throw new ArgumentException("The spectral power is zero over 360-780 nm.", nameof(relativePower));
        }

        return new Illuminant(
            name,
            $"{name}, spectral power given by the user",
            resampled,
            SpectrumRangeException.MissingFrom(relativePower.Grid, SpectralRange.Tristimulus));
    }

    /// <summary>Finds an illuminant by its name, without regard to case: a CIE name ("D65"; "F11" for "FL11"),
    /// "daylight-5200K" or "planckian-3000K".</summary>
    /// <param name="name">The name.</param>
    /// <param name="illuminant">The illuminant, where there is one.</param>
    public static bool TryFind(string? name, [NotNullWhen(true)] out Illuminant? illuminant)
    {
        string wanted = name is ['F' or 'f', >= '1' and <= '9', ..] ? $"FL{name[1..]}" : name ?? "";
        illuminant = All.FirstOrDefault(candidate => string.Equals(candidate.Name, wanted, StringComparison.OrdinalIgnoreCase));
        if (illuminant is null && FormulaName().Match(wanted) is { Success: true } match)
        {
            double kelvin = double.Parse(match.Groups["kelvin"].ValueSpan, CultureInfo.InvariantCulture);
            bool daylight = match.Groups["kind"].ValueSpan.Equals("daylight", StringComparison.OrdinalIgnoreCase);
            illuminant = (daylight, kelvin) switch
            {
                (true, >= 4000 and <= 25000) => Daylight(kelvin),
                (false, >= 1000 and <= 25000) => Planckian(kelvin),
                _ => null,
            };
        }

        return illuminant is not null;
    }

    /// <inheritdoc/>
    public bool Equals(Illuminant? other) =>
        ReferenceEquals(this, other)
        || (other is not null && Name == other.Name && RelativePower.Values.SequenceEqual(other.RelativePower.Values));

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Illuminant);

    /// <inheritdoc/>
    public override int GetHashCode() => Name.GetHashCode(StringComparison.Ordinal);

    /// <summary>Whether two illuminants are the same light under the same name.</summary>
    public static bool operator ==(Illuminant? left, Illuminant? right) => left?.Equals(right) ?? right is null;

    /// <summary>Whether two illuminants differ.</summary>
    public static bool operator !=(Illuminant? left, Illuminant? right) => !(left == right);

    /// <summary>The name.</summary>
    public override string ToString() => Name;

    // CIE 15: the nominal temperature of the D series rests on an older c2, 1.4380 instead of 1.4388.
    private static Illuminant NamedDaylight(string name, double nominalK)
    {
        double kelvin = nominalK * 1.4388 / 1.4380;
        return new Illuminant(
            name,
            string.Create(CultureInfo.InvariantCulture, $"CIE illuminant {name}, daylight at {kelvin:0} K"),
            Colorimetry.Daylight.RelativePower(kelvin, PowerGrid));
    }

    private static Spectrum WithZeroBeyond(Spectrum table)
    {
        var values = new double[PowerGrid.Count];
        var inside = WavelengthGrid.Between(table.Grid.FirstNm, table.Grid.LastNm, 1);
        LinearInterpolation.Resample(table, inside).Values.CopyTo(values.AsSpan(PowerGrid.IndexAtOrBelow(inside.FirstNm)));
        return new Spectrum(PowerGrid, values);
    }

    private static Spectrum WithEndsHeld(Spectrum power)
    {
        double first = Math.Max(power.Grid.FirstNm, PowerGrid.FirstNm);
        double last = Math.Min(power.Grid.LastNm, PowerGrid.LastNm);
        double[] within = [.. PowerGrid.WavelengthsNm.ToArray().Select(nm => Math.Clamp(nm, first, last))];
        var values = new double[within.Length];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = LinearInterpolation.At(power, within[i]);
        }

        return new Spectrum(PowerGrid, values);
    }

    [GeneratedRegex(@"^(?<kind>daylight|planckian)-(?<kelvin>\d{4,5}(\.\d{1,3})?)K$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex FormulaName();
}

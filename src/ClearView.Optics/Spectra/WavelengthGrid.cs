using System.Globalization;

namespace ClearView.Optics.Spectra;

/// <summary>The wavelengths of a spectrum, in nanometres, strictly ascending.</summary>
/// <remarks>
/// <para>Accepted: 2 to 2001 wavelengths within [200, 1100] nm, ends inclusive, no gap wider than 50 nm. Wider than
/// the visible range because containers are screened down to 290 nm and films up to the near infrared.</para>
/// <para>Equal when the wavelengths are equal, however the grid was made. Immutable, thread-safe.</para>
/// </remarks>
public sealed class WavelengthGrid : IEquatable<WavelengthGrid>
{
    /// <summary>Shortest wavelength accepted, nm.</summary>
    public const double MinimumNm = 200;

    /// <summary>Longest wavelength accepted, nm.</summary>
    public const double MaximumNm = 1100;

    /// <summary>Widest gap between neighbours accepted, nm.</summary>
    public const double MaximumGapNm = 50;

    /// <summary>Most wavelengths accepted.</summary>
    public const int MaximumCount = 2001;

    // Instruments print wavelengths to 0.01 nm or better; closer than this, intervals count as equal.
    private const double RegularityToleranceNm = 1e-6;

    private readonly double[] _wavelengthsNm;
    private readonly int _hashCode;
    private double[]? _logWavelengths;

    private WavelengthGrid(double[] wavelengthsNm, double? intervalNm)
    {
        _wavelengthsNm = wavelengthsNm;
        IntervalNm = intervalNm;
        var hash = new HashCode();
        foreach (double nm in wavelengthsNm)
        {
            hash.Add(nm);
        }

        _hashCode = hash.ToHashCode();
        for (int i = 1; i < wavelengthsNm.Length; i++)
        {
            WidestIntervalNm = Math.Max(WidestIntervalNm, wavelengthsNm[i] - wavelengthsNm[i - 1]);
        }
    }

    /// <summary>Number of wavelengths.</summary>
    public int Count => _wavelengthsNm.Length;

    /// <summary>First wavelength, nm.</summary>
    public double FirstNm => _wavelengthsNm[0];

    /// <summary>Last wavelength, nm.</summary>
    public double LastNm => _wavelengthsNm[^1];

    /// <summary>Interval between neighbours, nm, or <see langword="null"/> when the grid is irregular.</summary>
    public double? IntervalNm { get; }

    /// <summary>Widest interval between neighbours, nm.</summary>
    public double WidestIntervalNm { get; }

    /// <summary>The wavelengths, nm, ascending.</summary>
    public ReadOnlySpan<double> WavelengthsNm => _wavelengthsNm;

    /// <summary>Natural logarithms of the wavelengths in nm, computed when first asked for.</summary>
    internal ReadOnlySpan<double> LogWavelengths => _logWavelengths ??= Array.ConvertAll(_wavelengthsNm, Math.Log);

    /// <summary>Wavelength at a position, nm.</summary>
    /// <param name="index">Position, from 0.</param>
    public double this[int index] => _wavelengthsNm[index];

    /// <summary>Evenly spaced wavelengths.</summary>
    /// <param name="startNm">First wavelength, nm.</param>
    /// <param name="intervalNm">Interval, nm, in (0, 50].</param>
    /// <param name="count">Number of wavelengths, 2 to 2001.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure, or the last wavelength that follows, is outside its range.</exception>
    public static WavelengthGrid Regular(double startNm, double intervalNm, int count)
    {
        RequireCount(count, nameof(count));
        if (!(intervalNm > 0 && intervalNm <= MaximumGapNm))
        {
            throw OutOfRange(nameof(intervalNm), intervalNm, "above 0 and at most 50 nm");
        }

        var wavelengths = new double[count];
        for (int i = 0; i < count; i++)
        {
            wavelengths[i] = startNm + (i * intervalNm);
        }

        RequireWavelength(startNm, nameof(startNm));
        RequireWavelength(wavelengths[^1], nameof(count));
        return new WavelengthGrid(wavelengths, intervalNm);
    }

    /// <summary>Evenly spaced wavelengths from a first to a last one.</summary>
    /// <param name="startNm">First wavelength, nm.</param>
    /// <param name="endNm">Last wavelength, nm; a whole number of intervals above the first.</param>
    /// <param name="intervalNm">Interval, nm, in (0, 50].</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is outside its range.</exception>
    public static WavelengthGrid Between(double startNm, double endNm, double intervalNm)
    {
        double steps = Math.Round((endNm - startNm) / intervalNm);
        if (!(Math.Abs(startNm + (steps * intervalNm) - endNm) <= RegularityToleranceNm))
        {
            throw OutOfRange(nameof(endNm), endNm, "a whole number of intervals above startNm");
        }

        return Regular(startNm, intervalNm, checked((int)steps + 1));
    }

    /// <summary>Wavelengths one by one; even spacing is recognised.</summary>
    /// <param name="wavelengthsNm">Wavelengths, nm, strictly ascending; copied.</param>
    /// <exception cref="ArgumentOutOfRangeException">Too few, too many, out of range, not ascending, or a gap above 50 nm.</exception>
    public static WavelengthGrid FromWavelengths(ReadOnlySpan<double> wavelengthsNm)
    {
        RequireCount(wavelengthsNm.Length, nameof(wavelengthsNm));
        RequireWavelength(wavelengthsNm[0], nameof(wavelengthsNm));
        double first = wavelengthsNm[1] - wavelengthsNm[0];
        bool regular = true;
        for (int i = 1; i < wavelengthsNm.Length; i++)
        {
            RequireWavelength(wavelengthsNm[i], nameof(wavelengthsNm));
            double gap = wavelengthsNm[i] - wavelengthsNm[i - 1];
            if (!(gap > 0 && gap <= MaximumGapNm))
            {
                throw OutOfRange(nameof(wavelengthsNm), wavelengthsNm[i], "above the wavelength before it, by at most 50 nm");
            }

            regular &= Math.Abs(gap - first) <= RegularityToleranceNm;
        }

        return new WavelengthGrid(wavelengthsNm.ToArray(), regular ? first : null);
    }

    /// <summary>Position of the last wavelength that is not above the given one; -1 when there is none.</summary>
    /// <param name="wavelengthNm">Wavelength, nm.</param>
    public int IndexAtOrBelow(double wavelengthNm)
    {
        int found = Array.BinarySearch(_wavelengthsNm, wavelengthNm);
        return found >= 0 ? found : ~found - 1;
    }

    /// <inheritdoc/>
    public bool Equals(WavelengthGrid? other) =>
        ReferenceEquals(this, other)
        || (other is not null && _hashCode == other._hashCode && WavelengthsNm.SequenceEqual(other.WavelengthsNm));

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as WavelengthGrid);

    /// <inheritdoc/>
    public override int GetHashCode() => _hashCode;

    /// <summary>Whether two grids have the same wavelengths.</summary>
    public static bool operator ==(WavelengthGrid? left, WavelengthGrid? right) => left?.Equals(right) ?? right is null;

    /// <summary>Whether two grids differ.</summary>
    public static bool operator !=(WavelengthGrid? left, WavelengthGrid? right) => !(left == right);

    /// <summary>For example "380-780 nm at 5 nm".</summary>
    public override string ToString() => IntervalNm is { } interval
        ? string.Create(CultureInfo.InvariantCulture, $"{FirstNm:0.###}-{LastNm:0.###} nm at {interval:0.###} nm")
        : string.Create(CultureInfo.InvariantCulture, $"{FirstNm:0.###}-{LastNm:0.###} nm, {Count} irregular wavelengths");

    private static void RequireCount(int count, string parameter)
    {
        if (count is < 2 or > MaximumCount)
        {
            throw OutOfRange(parameter, count, "2 to 2001 wavelengths");
        }
    }

    private static void RequireWavelength(double nm, string parameter)
    {
        if (!(nm >= MinimumNm && nm <= MaximumNm))
        {
            throw OutOfRange(parameter, nm, "a wavelength within 200-1100 nm");
        }
    }

    private static ArgumentOutOfRangeException OutOfRange(string parameter, double value, string expected) =>
        new(parameter, value, string.Create(CultureInfo.InvariantCulture, $"{parameter} was {value}; expected {expected}."));
}

using System.Collections.Concurrent;
using System.Collections.Immutable;

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Colorimetry;

/// <summary>The factors that turn a transmittance spectrum on one grid into tristimulus values.</summary>
/// <remarks>
/// <para>ASTM E2022: third-order Lagrange interpolation of the transmittance, summed with the 1 nm products of spectral
/// power and colour-matching function over 360-780 nm (ASTM E308), rearranged into one factor per measured wavelength.
/// On a 1 nm grid that is direct summation. Where the grid ends short of 360 or 780 nm its end value is held (ASTM E308).</para>
/// <para>Scaled so that a perfect transmitter has Y = 100. Bandpass is not corrected. Immutable, thread-safe.</para>
/// </remarks>
public sealed class WeightingTable
{
    // A service meets a handful of grids; this bounds what a client with ever new irregular grids can make us keep.
    private const int MostTablesKept = 512;

    private static readonly ConcurrentDictionary<(WavelengthGrid Grid, LightAndObserver Light), WeightingTable> Tables = new();

    private readonly double[] _x;
    private readonly double[] _y;
    private readonly double[] _z;

    private WeightingTable(WavelengthGrid grid, LightAndObserver light)
    {
        SpectrumRangeException.ThrowIfShort(grid, SpectralRange.MinimumUseful);
        Grid = grid;
        LightAndObserver = light;
        Extension = SpectrumRangeException.MissingFrom(grid, SpectralRange.Tristimulus);
        White = WhitePoint.Of(light);
        IsDirectSummation = grid.IntervalNm is { } interval && interval == 1 && grid.FirstNm == Math.Floor(grid.FirstNm);
        _x = new double[grid.Count];
        _y = new double[grid.Count];
        _z = new double[grid.Count];

        Spectrum power = light.Illuminant.RelativePower;
        double scale = WhitePoint.Scale(light);
        Span<double> coefficients = stackalloc double[4];
        for (int i = 0; i < power.Grid.Count; i++)
        {
            int first = LagrangeInterpolation.Coefficients(grid, power.Grid[i], coefficients, out int count);
            double weight = power[i] * scale;
            for (int k = 0; k < count; k++)
            {
                _x[first + k] += coefficients[k] * weight * light.Observer.XBar[i];
                _y[first + k] += coefficients[k] * weight * light.Observer.YBar[i];
                _z[first + k] += coefficients[k] * weight * light.Observer.ZBar[i];
            }
        }
    }

    /// <summary>The wavelengths that the factors belong to.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>The illuminant and observer.</summary>
    public LightAndObserver LightAndObserver { get; }

    /// <summary>Tristimulus values of the perfect transmitter, by the same 1 nm sums.</summary>
    public Tristimulus White { get; }

    /// <summary>The parts of 360-780 nm over which the end value is held; empty when the grid reaches over all of it.</summary>
    public ImmutableArray<SpectralRange> Extension { get; }

    /// <summary>Whether the grid is at whole nanometres, so that nothing is interpolated.</summary>
    public bool IsDirectSummation { get; }

    /// <summary>Factors for X, one per wavelength.</summary>
    public ReadOnlySpan<double> X => _x;

    /// <summary>Factors for Y, one per wavelength.</summary>
    public ReadOnlySpan<double> Y => _y;

    /// <summary>Factors for Z, one per wavelength.</summary>
    public ReadOnlySpan<double> Z => _z;

    /// <summary>How the spectrum is weighted, in words.</summary>
    public string Description => IsDirectSummation
        ? "ASTM E308 direct summation at 1 nm, 360-780 nm"
        : "ASTM E2022 third-order Lagrange from 1 nm products, 360-780 nm";

    /// <summary>The table of a grid under an illuminant and observer; computed once and kept.</summary>
    /// <param name="grid">The wavelengths, reaching over 400-700 nm at least.</param>
    /// <param name="light">The illuminant and observer.</param>
    /// <exception cref="SpectrumRangeException">The grid does not reach over 400-700 nm.</exception>
    public static WeightingTable For(WavelengthGrid grid, LightAndObserver light)
    {
        ArgumentNullException.ThrowIfNull(grid);
        ArgumentNullException.ThrowIfNull(light);
        if (Tables.TryGetValue((grid, light), out WeightingTable? table))
        {
            return table;
        }

        if (Tables.Count >= MostTablesKept)
        {
            Tables.Clear();
        }

        return Tables.GetOrAdd((grid, light), static key => new WeightingTable(key.Grid, key.Light));
    }

    /// <summary>Tristimulus values of a transmittance spectrum.</summary>
    /// <param name="spectrum">The spectrum, on this table's grid.</param>
    /// <exception cref="ArgumentException">The spectrum is on another grid.</exception>
    public Tristimulus Weigh(TransmittanceSpectrum spectrum)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        if (spectrum.Grid != Grid)
        {
            throw new ArgumentException($"The spectrum is on {spectrum.Grid}; this table is for {Grid}.", nameof(spectrum));
        }

        double x = 0;
        double y = 0;
        double z = 0;
        ReadOnlySpan<double> values = spectrum.Fractions;
        for (int i = 0; i < values.Length; i++)
        {
            x += _x[i] * values[i];
            y += _y[i] * values[i];
            z += _z[i] * values[i];
        }

        return new Tristimulus(x, y, z);
    }
}

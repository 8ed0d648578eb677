using System.Collections.Immutable;

namespace ClearView.Optics.Spectra;

/// <summary>A spectrum does not reach over the wavelengths that a computation needs.</summary>
public sealed class SpectrumRangeException : ArgumentException
{
    /// <summary>Names what is missing.</summary>
    /// <param name="missing">The missing ranges, at least one.</param>
    /// <param name="required">The range that is needed.</param>
    public SpectrumRangeException(ImmutableArray<SpectralRange> missing, SpectralRange required)
        : base($"The spectrum lacks {string.Join(" and ", missing)}; at least {required} is needed.")
    {
        Missing = missing;
        Required = required;
    }

    /// <summary>The missing ranges, nm.</summary>
    public ImmutableArray<SpectralRange> Missing { get; }

    /// <summary>The range that is needed, nm.</summary>
    public SpectralRange Required { get; }

    /// <summary>Throws unless the grid reaches over the range.</summary>
    /// <param name="grid">The wavelengths.</param>
    /// <param name="required">The range that is needed.</param>
    /// <exception cref="SpectrumRangeException">The grid begins too late or ends too early.</exception>
    public static void ThrowIfShort(WavelengthGrid grid, SpectralRange required)
    {
        ArgumentNullException.ThrowIfNull(grid);
        ImmutableArray<SpectralRange> missing = MissingFrom(grid, required);
        if (!missing.IsEmpty)
        {
            throw new SpectrumRangeException(missing, required);
        }
    }

    /// <summary>The parts of a range that a grid does not reach over.</summary>
    /// <param name="grid">The wavelengths.</param>
    /// <param name="required">The range that is needed.</param>
    public static ImmutableArray<SpectralRange> MissingFrom(WavelengthGrid grid, SpectralRange required)
    {
        ArgumentNullException.ThrowIfNull(grid);
        var missing = ImmutableArray.CreateBuilder<SpectralRange>();
        if (grid.FirstNm > required.FromNm)
        {
            missing.Add(new SpectralRange(required.FromNm, Math.Min(grid.FirstNm, required.ToNm)));
        }

        if (grid.LastNm < required.ToNm)
        {
            missing.Add(new SpectralRange(Math.Max(grid.LastNm, required.FromNm), required.ToNm));
        }

        return missing.ToImmutable();
    }
}

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission.Bands;

/// <summary>Screen of a container wall's light transmission: the greatest transmittance between 290 and 450 nm against a limit.</summary>
/// <param name="MaximumFraction">Greatest transmittance, fraction.</param>
/// <param name="MaximumAtNm">Where, nm.</param>
/// <param name="LimitFraction">The limit, fraction.</param>
/// <param name="IsWithinLimit">Whether the greatest transmittance is at or below the limit.</param>
/// <remarks>
/// After the light-transmission tests of the pharmacopoeias for containers, which take readings at about 20 nm between 290 and
/// 450 nm (from memory). A screen only: see <see cref="Caution"/>.
/// </remarks>
public readonly record struct LightBarrierScreen(double MaximumFraction, double MaximumAtNm, double LimitFraction, bool IsWithinLimit)
{
    /// <summary>Goes with every result.</summary>
    public const string Caution =
        "This screen is not a compendial test. Release of a container follows the applicable pharmacopoeia, local codes and qualified staff.";

    /// <summary>Widest interval at which the spectrum may have been measured, nm.</summary>
    public const double WidestIntervalNm = 20;

    /// <summary>The wavelengths that are screened.</summary>
    public static SpectralRange Range { get; } = new(290, 450);

    /// <summary>Screens a spectrum. Nothing is guessed below or above what was measured.</summary>
    /// <param name="spectrum">Total transmittance of the wall, reaching over 290-450 nm at intervals of 20 nm or finer.</param>
    /// <param name="limitFraction">The limit, fraction, in (0, 1].</param>
    /// <exception cref="ArgumentOutOfRangeException">The limit is outside (0, 1].</exception>
    /// <exception cref="SpectrumRangeException">The spectrum does not reach over 290-450 nm.</exception>
    /// <exception cref="ArgumentException">The intervals are wider than 20 nm.</exception>
    public static LightBarrierScreen Of(TransmittanceSpectrum spectrum, double limitFraction)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        if (!(limitFraction is > 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(limitFraction), limitFraction, "expected a fraction above 0 and at most 1.");
        }

        SpectrumRangeException.ThrowIfShort(spectrum.Grid, Range);
        if (WidestWithin(spectrum.Grid) is var widest && widest > WidestIntervalNm)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The spectrum has an interval of {widest} nm; expected 20 nm or finer over {Range}."),
                nameof(spectrum));
        }

        var band = BandTransmittance.Of(spectrum, new Band("light-barrier", "Light barrier", Range));
        return new LightBarrierScreen(band.MaximumFraction, band.MaximumAtNm, limitFraction, band.MaximumFraction <= limitFraction);
    }

    /// <summary>Whether a grid reaches over 290-450 nm at intervals of 20 nm or finer.</summary>
    /// <param name="grid">The wavelengths.</param>
    public static bool Covers(WavelengthGrid grid) =>
        SpectrumRangeException.MissingFrom(grid, Range).IsEmpty && WidestWithin(grid) <= WidestIntervalNm;

    private static double WidestWithin(WavelengthGrid grid)
    {
        double widest = 0;
        for (int i = 1; i < grid.Count; i++)
        {
            bool inside = grid[i] > Range.FromNm && grid[i - 1] < Range.ToNm;
            widest = inside ? Math.Max(widest, grid[i] - grid[i - 1]) : widest;
        }

        return widest;
    }
}

using System.Collections.Immutable;

namespace ClearView.Optics.Colorimetry;

/// <summary>Dominant or complementary wavelength with excitation purity (CIE 15).</summary>
/// <param name="WavelengthNm">The wavelength, nm, interpolated along the spectral locus.</param>
/// <param name="IsComplementary">Whether the colour is a purple, which only has a complementary wavelength.</param>
/// <param name="ExcitationPurity">Excitation purity, fraction: 0 at the white point, 1 on the spectral locus or purple line.</param>
/// <param name="Boundary">Where the line from the white point through the colour meets the locus or the purple line.</param>
public readonly record struct DominantWavelength(
    double WavelengthNm,
    bool IsComplementary,
    double ExcitationPurity,
    Chromaticity Boundary)
{
    /// <summary>Nearer to the white point than this (distance in x, y) a colour has no direction worth naming.</summary>
    public const double AchromaticDistance = 1e-5;

    /// <summary>Finds it by intersecting the line through white point and colour with the spectral locus.</summary>
    /// <param name="colour">The colour.</param>
    /// <param name="white">The white point, under the same illuminant and observer.</param>
    /// <param name="observer">The observer.</param>
    /// <returns>The wavelength, or <see langword="null"/> when the colour is achromatic or its chromaticity undefined.</returns>
    public static DominantWavelength? Find(Tristimulus colour, Tristimulus white, Observer observer)
    {
        ArgumentNullException.ThrowIfNull(observer);
        Chromaticity c = colour.ToChromaticity();
        Chromaticity w = white.ToChromaticity();
        var direction = new Chromaticity(c.X - w.X, c.Y - w.Y);
        if (!(Math.Sqrt((direction.X * direction.X) + (direction.Y * direction.Y)) > AchromaticDistance))
        {
            return null;
        }

        ImmutableArray<Chromaticity> locus = observer.Locus.Points;
        if (MeetLocus(w, direction, locus) is { } hit)
        {
            return new DominantWavelength(hit.Nm, false, 1 / hit.Distance, At(w, direction, hit.Distance));
        }

        // The line leaves through the purple line: the wavelength is that of the opposite direction.
        (double Distance, double Share)? purple = Meet(w, direction, locus[^1], locus[0]);
        (double Nm, double Distance)? opposite = MeetLocus(w, new Chromaticity(-direction.X, -direction.Y), locus);
        return purple is { } p && opposite is { } o
            ? new DominantWavelength(o.Nm, true, 1 / p.Distance, At(w, direction, p.Distance))
            : null;
    }

    private static Chromaticity At(Chromaticity origin, Chromaticity direction, double distance) =>
        new(origin.X + (distance * direction.X), origin.Y + (distance * direction.Y));

    private static (double Nm, double Distance)? MeetLocus(
        Chromaticity origin, Chromaticity direction, ImmutableArray<Chromaticity> locus)
    {
        for (int i = 0; i + 1 < locus.Length; i++)
        {
            if (Meet(origin, direction, locus[i], locus[i + 1]) is { } hit)
            {
                return (SpectralLocus.FirstNm + i + hit.Share, hit.Distance);
            }
        }

        return null;
    }

    /// <summary>Where a ray meets a segment: distance in units of the direction, and share of the segment in [0, 1].</summary>
    private static (double Distance, double Share)? Meet(
        Chromaticity origin, Chromaticity direction, Chromaticity from, Chromaticity to)
    {
        double sx = to.X - from.X;
        double sy = to.Y - from.Y;
        double cross = (direction.X * sy) - (direction.Y * sx);
        if (cross == 0)
        {
            return null;
        }

        double ox = from.X - origin.X;
        double oy = from.Y - origin.Y;
        double distance = ((ox * sy) - (oy * sx)) / cross;
        double share = ((ox * direction.Y) - (oy * direction.X)) / cross;
        return distance > 0 && share is >= 0 and <= 1 ? (distance, share) : null;
    }
}

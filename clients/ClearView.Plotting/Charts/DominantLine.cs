using System.Collections.Immutable;
using System.Globalization;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Plotting.Model;

using LightAndObserver = ClearView.Optics.Colorimetry.LightAndObserver;

namespace ClearView.Plotting.Charts;

/// <summary>The line from the white point through a colour to its dominant wavelength, or back to its complementary one.</summary>
/// <param name="Reading">The reading.</param>
/// <param name="Group">The group that the reading stands for.</param>
/// <param name="Wavelength">Where the line ends and what it is named.</param>
/// <param name="White">Where it begins.</param>
/// <param name="Complement">On the locus opposite, for purples; <see langword="null"/> else.</param>
internal sealed record DominantLine(ChartReading Reading, string Group, DominantWavelength Wavelength, Chromaticity White, Chromaticity? Complement)
{
    /// <summary>For example "dominant wavelength 570.4 nm (specimen B07, base)".</summary>
    public string Name => string.Create(
        CultureInfo.InvariantCulture,
        $"{(Wavelength.IsComplementary ? "complementary" : "dominant")} wavelength {Wavelength.WavelengthNm:0.0} nm ({Wording.SpecimenAndPlace(Reading)})");

    /// <summary>The line's points: for a purple it runs on through the white point to the complementary wavelength.</summary>
    public ImmutableArray<ChartPoint> Points => Complement is { } opposite
        ? [LocusModel.Point(opposite), LocusModel.Point(White), LocusModel.Point(Wavelength.Boundary)]
        : [LocusModel.Point(White), LocusModel.Point(Wavelength.Boundary)];

    /// <summary>The lines of the most saturated reading of each group, the most saturated first.</summary>
    public static ImmutableArray<DominantLine> MostSaturated(IEnumerable<ReadingGroup> groups, LightAndObserver light, int most) =>
    [
        .. groups
            .Select(group => group.Readings.Select(reading => Of(reading, group.Label, light)).OfType<DominantLine>().MaxBy(line => line.Wavelength.ExcitationPurity))
            .OfType<DominantLine>()
            .OrderByDescending(line => line.Wavelength.ExcitationPurity)
            .Take(most),
    ];

    private static DominantLine? Of(ChartReading reading, string group, LightAndObserver light)
    {
        var colour = new Tristimulus(
            ColourBasis.Number(reading, Measurands.TristimulusX),
            ColourBasis.Number(reading, Measurands.TristimulusY),
            ColourBasis.Number(reading, Measurands.TristimulusZ));
        Tristimulus white = WhitePoint.Of(light);
        return DominantWavelength.Find(colour, white, light.Observer) is { } wavelength
            ? new DominantLine(reading, group, wavelength, white.ToChromaticity(), wavelength.IsComplementary ? OnLocus(wavelength.WavelengthNm, light.Observer) : null)
            : null;
    }

    private static Chromaticity OnLocus(double nm, Observer observer)
    {
        ImmutableArray<Chromaticity> locus = observer.Locus.Points;
        int below = Math.Clamp((int)(nm - SpectralLocus.FirstNm), 0, locus.Length - 2);
        double share = nm - SpectralLocus.FirstNm - below;
        return new Chromaticity(
            locus[below].X + (share * (locus[below + 1].X - locus[below].X)),
            locus[below].Y + (share * (locus[below + 1].Y - locus[below].Y)));
    }
}

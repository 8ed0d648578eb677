using System.Collections.Immutable;
using System.Globalization;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Transmission.Thickness;

namespace ClearView.Optics.Evaluations;

/// <summary>Finds what to be wary of.</summary>
internal static class CaveatFinder
{
    // Common practice, no source: above this haze, colour of transmitted light is quoted only with the geometry beside it.
    private const double StronglyDiffusingHazePercent = 30;

    // ASTM E308 covers intervals up to this.
    private const double WidestIntervalNm = 20;

    private static readonly ImmutableArray<Measurand> HazeFamily =
        [Measurands.DiffuseLuminousTransmittance, Measurands.RegularLuminousTransmittance, Measurands.Haze];

    private static readonly ImmutableArray<Measurand> LuminousFamily = [Measurands.LuminousTransmittance, .. HazeFamily];

    private static readonly ImmutableArray<Measurand> ColourFamily = [.. Measurands.All.Except(LuminousFamily)];

    public static ImmutableArray<Caveat> OfReadings(
        Method method, LuminousTransmittance total, DiffuseLuminousTransmittance diffuse)
    {
        var found = ImmutableArray.CreateBuilder<Caveat>();
        AddMethod(found, method, ScanKind.Hazemeter);
        AddLuminous(found, method, total, diffuse);
        if (OutsideFraction(total.Fraction) || OutsideFraction(diffuse.Fraction))
        {
            Add(
                found,
                CaveatCode.TransmittanceOutsidePhysicalRange,
                $"Luminous transmittance is {total.Percent:0.##} %, diffuse {diffuse.Percent:0.##} %: outside 0-100 %.",
                LuminousFamily);
        }

        if (diffuse.Fraction > total.Fraction)
        {
            Add(found, CaveatCode.DiffuseAboveTotal, $"Diffuse transmittance ({diffuse.Percent:0.##} %) exceeds total ({total.Percent:0.##} %).", HazeFamily);
        }

        return found.DrainToImmutable();
    }

    public static ImmutableArray<Caveat> OfSpectra(
        TransmittanceScans scans,
        Method method,
        WeightingTable table,
        LuminousTransmittance total,
        DiffuseLuminousTransmittance? diffuse,
        TransmittedColour colour)
    {
        var found = ImmutableArray.CreateBuilder<Caveat>();
        foreach (SpectralRange range in table.Extension)
        {
            Add(found, CaveatCode.RangeExtended, $"Not measured over {range}: the end value was held there (ASTM E308).", [], range);
        }

        if (scans.Grid.WidestIntervalNm > WidestIntervalNm)
        {
            Add(found, CaveatCode.IntervalAboveStandardRange, $"Measured at intervals up to {scans.Grid.WidestIntervalNm:0.##} nm; ASTM E308 covers up to 20 nm.", []);
        }

        AddMethod(found, method, ScanKind.Spectral);
        AddSpectral(found, scans);
        AddLuminous(found, method, total, diffuse);
        if (diffuse is { } d && Haze.FromTransmittances(d, total) is { Percent: > StronglyDiffusingHazePercent } haze)
        {
            Add(found, CaveatCode.ColourOfDiffusingSpecimen, $"With {haze.Percent:0.#} % haze the colour depends on the sphere's geometry and ports.", ColourFamily);
        }

        if (colour.DominantWavelength is null)
        {
            Add(
                found,
                CaveatCode.Achromatic,
                $"The colour cannot be told from the white point: no dominant wavelength.",
                [Measurands.DominantWavelength, Measurands.ComplementaryWavelength, Measurands.ExcitationPurity]);
        }

        if (method.GivesD1925)
        {
            Add(found, CaveatCode.WithdrawnStandard, $"ASTM D1925 is withdrawn: for comparison with old records only.", [Measurands.YellownessIndexD1925]);
        }

        return found.DrainToImmutable();
    }

    public static ImmutableArray<Caveat> OfLightBarrier(TransmittanceScans scans, Method method)
    {
        var found = ImmutableArray.CreateBuilder<Caveat>();
        if (method.LightBarrierLimitFraction is null)
        {
            return [];
        }

        if (LightBarrierScreen.Covers(scans.Grid))
        {
            Add(found, CaveatCode.LightBarrierIsAScreen, $"{LightBarrierScreen.Caution}", [Measurands.LightBarrierMaximum], LightBarrierScreen.Range);
        }
        else
        {
            Add(
                found,
                CaveatCode.LightBarrierNotMeasured,
                $"The light-barrier screen needs {LightBarrierScreen.Range} at 20 nm or finer; measured was {scans.Grid}. Nothing is guessed.",
                [Measurands.LightBarrierMaximum],
                LightBarrierScreen.Range);
        }

        return found.DrainToImmutable();
    }

    public static ImmutableArray<Caveat> OfScaling(TransmittanceScans scans, ThicknessScaling scaling)
    {
        var found = ImmutableArray.CreateBuilder<Caveat>();
        foreach (SpectralRange beyond in new[]
        {
            new SpectralRange(scans.Grid.FirstNm, Math.Min(scaling.Index.ValidRange.FromNm, scans.Grid.LastNm)),
            new SpectralRange(Math.Max(scaling.Index.ValidRange.ToNm, scans.Grid.FirstNm), scans.Grid.LastNm),
        }.Where(range => range.FromNm < range.ToNm))
        {
            Add(found, CaveatCode.RefractiveIndexExtrapolated, $"{scaling.Index.Description}: extrapolated over {beyond}.", [], beyond);
        }

        if (scans.Diffuse is not null)
        {
            Add(
                found,
                CaveatCode.HazeScaledByModel,
                $"Haze at {scaling.ReferenceThicknessUm:0.#} µm assumes single scattering in the bulk; surface haze does not grow with thickness.",
                [Measurands.Haze]);
        }

        return found.DrainToImmutable();
    }

    public static Caveat OfRefusedScaling(UnphysicalTransmittanceException unphysical) =>
        new(CaveatCode.ThicknessNotScaled, $"Not scaled to the reference thickness. {unphysical.Message}", [], null);

    private static void AddMethod(ImmutableArray<Caveat>.Builder found, Method method, ScanKind scans)
    {
        Illuminant luminous = method.Luminous.Illuminant;
        Illuminant colour = method.Colour.Illuminant;
        AddExtension(found, luminous);
        if (colour != luminous)
        {
            AddExtension(found, colour);
        }

        if (method.Metamerism?.TestLight.Illuminant is { } test && test != luminous && test != colour)
        {
            AddExtension(found, test);
        }

        HazeStandard standard = method.HazeStandard;
        if (!standard.NamedPairs.Contains(method.Luminous))
        {
            Add(
                found,
                CaveatCode.PairNotOfStandard,
                $"{standard} names {string.Join(" or ", standard.NamedPairs)}, not {method.Luminous}.",
                LuminousFamily);
        }

        if (standard.ExpectedScans is { } expected && expected != scans)
        {
            string wanted = expected == ScanKind.Hazemeter ? "hazemeter readings" : "spectral scans";
            Add(found, CaveatCode.ProcedureMismatch, $"{standard} is written for {wanted}.", LuminousFamily);
        }
    }

    private static void AddExtension(ImmutableArray<Caveat>.Builder found, Illuminant illuminant)
    {
        foreach (SpectralRange range in illuminant.Extension)
        {
            Add(found, CaveatCode.IlluminantRangeExtended, $"Illuminant {illuminant} was not given over {range}: its end value was held there.", [], range);
        }
    }

    private static void AddLuminous(
        ImmutableArray<Caveat>.Builder found, Method method, LuminousTransmittance total, DiffuseLuminousTransmittance? diffuse)
    {
        if (diffuse is not { } d)
        {
            Add(found, CaveatCode.DiffuseNotMeasured, $"Diffuse transmittance was not measured: no haze.", HazeFamily);
            return;
        }

        if (Haze.FromTransmittances(d, total) is not { } haze)
        {
            Add(found, CaveatCode.HazeUndefined, $"Luminous transmittance is {total.Percent:0.###} %: haze is undefined.", [Measurands.Haze]);
        }
        else if (haze.Percent > method.HazeStandard.HighestHazePercent)
        {
            Add(
                found,
                CaveatCode.HazeAboveStandardRange,
                $"Haze {haze.Percent:0.##} % is above the {method.HazeStandard.HighestHazePercent:0} % that {method.HazeStandard.HazeName} covers.",
                [Measurands.Haze]);
        }
    }

    private static void AddSpectral(ImmutableArray<Caveat>.Builder found, TransmittanceScans scans)
    {
        ReadOnlySpan<double> total = scans.Total.Fractions;
        ReadOnlySpan<double> diffuse = scans.Diffuse is null ? [] : scans.Diffuse.Fractions;
        var outside = new WavelengthSpan(scans.Grid);
        var above = new WavelengthSpan(scans.Grid);
        for (int i = 0; i < total.Length; i++)
        {
            bool hasDiffuse = !diffuse.IsEmpty;
            outside.Take(i, OutsideFraction(total[i]) || (hasDiffuse && OutsideFraction(diffuse[i])));
            above.Take(i, hasDiffuse && diffuse[i] > total[i]);
        }

        if (outside.Range is { } outsideRange)
        {
            Add(
                found,
                CaveatCode.TransmittanceOutsidePhysicalRange,
                $"Transmittance lies outside 0-100 % at {outside.Count} of {total.Length} wavelengths, {outsideRange}.",
                [],
                outsideRange);
        }

        if (above.Range is { } aboveRange)
        {
            Add(
                found,
                CaveatCode.DiffuseAboveTotal,
                $"Diffuse exceeds total transmittance at {above.Count} of {total.Length} wavelengths, {aboveRange}.",
                HazeFamily,
                aboveRange);
        }
    }

    private static bool OutsideFraction(double fraction) => fraction is < 0 or > 1;

    private static void Add(
        ImmutableArray<Caveat>.Builder found,
        CaveatCode code,
        FormattableString message,
        ImmutableArray<Measurand> measurands,
        SpectralRange? range = null) =>
        found.Add(new Caveat(code, message.ToString(CultureInfo.InvariantCulture), measurands, range));
}

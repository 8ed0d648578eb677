using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Transmission.Thickness;

namespace ClearView.Optics.Evaluations;

/// <summary>From scans to an <see cref="Evaluation"/>.</summary>
public static class Evaluator
{
    /// <summary>Evaluates spectral scans.</summary>
    /// <param name="scans">Total and, where measured, diffuse transmittance, reaching over 400-700 nm at least.</param>
    /// <param name="method">The method.</param>
    /// <exception cref="SpectrumRangeException">The scans do not reach over 400-700 nm.</exception>
    public static Evaluation Evaluate(TransmittanceScans scans, Method method)
    {
        ArgumentNullException.ThrowIfNull(scans);
        var evaluator = new ReadingEvaluator(scans.Grid, method);
        ReadOnlySpan<double> diffuseFractions = scans.Diffuse is null ? [] : scans.Diffuse.Fractions;
        ReadingValues values = evaluator.Evaluate(scans.Total.Fractions, diffuseFractions);
        Tristimulus white = evaluator.ColourTable.White;
        var colour = new TransmittedColour(
            values.Colour,
            white,
            values.Lab,
            DominantWavelength.Find(values.Colour, white, method.Colour.Observer));
        var transmittance = LuminousTransmittance.FromFraction(values.LuminousTransmittance);
        DiffuseLuminousTransmittance? diffuse = scans.Diffuse is null
            ? null
            : DiffuseLuminousTransmittance.FromFraction(values.DiffuseLuminousTransmittance);
        (ScaledEvaluation? scaled, ImmutableArray<Caveat> scalingCaveats) = Scale(scans, method, transmittance, diffuse);
        return new Evaluation
        {
            Method = method,
            Scans = scans,
            Weighting = evaluator.LuminousTable.Description,
            LuminousTransmittance = transmittance,
            DiffuseLuminousTransmittance = diffuse,
            Colour = colour,
            YellownessE313 = Index(values.YellownessE313, method.Colour, "ASTM E313"),
            YellownessIso17223 = method.Iso17223 is { } iso && values.Colour.Y > 0 ? YellownessIndex.Iso17223(values.Colour, iso) : null,
            YellownessD1925 = Index(values.YellownessD1925, LightAndObserver.CDegree2, "ASTM D1925 (withdrawn)"),
            LightBarrier = Screen(scans, method),
            AtReferenceThickness = scaled,
            Caveats =
            [
                .. CaveatFinder.OfSpectra(scans, method, evaluator.LuminousTable, transmittance, diffuse, colour),
                .. CaveatFinder.OfLightBarrier(scans, method),
                .. scalingCaveats,
            ],
        };
    }

    /// <summary>Evaluates hazemeter readings: luminous values and haze only.</summary>
    /// <param name="readings">The four readings.</param>
    /// <param name="method">The method; its luminous pair must be the one that the instrument realises.</param>
    public static Evaluation Evaluate(HazemeterReadings readings, Method method)
    {
        ArgumentNullException.ThrowIfNull(method);
        return new Evaluation
        {
            Method = method,
            Scans = null,
            Weighting = "instrument",
            LuminousTransmittance = readings.LuminousTransmittance,
            DiffuseLuminousTransmittance = readings.DiffuseLuminousTransmittance,
            Colour = null,
            YellownessE313 = null,
            YellownessD1925 = null,
            Caveats = CaveatFinder.OfReadings(method, readings.LuminousTransmittance, readings.DiffuseLuminousTransmittance),
        };
    }

    private static LightBarrierScreen? Screen(TransmittanceScans scans, Method method) =>
        method.LightBarrierLimitFraction is { } limit && LightBarrierScreen.Covers(scans.Grid)
            ? LightBarrierScreen.Of(scans.Total, limit)
            : null;

    private static (ScaledEvaluation? Scaled, ImmutableArray<Caveat> Caveats) Scale(
        TransmittanceScans scans, Method method, LuminousTransmittance total, DiffuseLuminousTransmittance? diffuse)
    {
        if (method.Thickness is not { } scaling)
        {
            return (null, []);
        }

        try
        {
            var scaledScans = new TransmittanceScans(scaling.Scale(scans.Total), null);
            Haze? haze = diffuse is { } d ? Haze.FromTransmittances(d, total) : null;
            return (
                new ScaledEvaluation(
                    scaling,
                    Evaluate(scaledScans, method.WithThickness(null)),
                    haze is { Fraction: < 1 } measured ? scaling.ScaleBulkHaze(measured) : null),
                CaveatFinder.OfScaling(scans, scaling));
        }
        catch (UnphysicalTransmittanceException unphysical)
        {
            return (null, [CaveatFinder.OfRefusedScaling(unphysical)]);
        }
    }

    private static YellownessIndex? Index(double value, LightAndObserver light, string standard) =>
        double.IsNaN(value) ? null : new YellownessIndex(value, light, standard);
}

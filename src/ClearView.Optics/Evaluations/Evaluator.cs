using ClearView.Optics.Colorimetry;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;

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
        return new Evaluation
        {
            Method = method,
            Scans = scans,
            Weighting = evaluator.LuminousTable.Description,
            LuminousTransmittance = transmittance,
            DiffuseLuminousTransmittance = diffuse,
            Colour = colour,
            YellownessE313 = Index(values.YellownessE313, method.Colour, "ASTM E313"),
            YellownessD1925 = Index(values.YellownessD1925, LightAndObserver.CDegree2, "ASTM D1925 (withdrawn)"),
            Caveats = CaveatFinder.OfSpectra(scans, method, evaluator.LuminousTable, transmittance, diffuse, colour),
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

    private static YellownessIndex? Index(double value, LightAndObserver light, string standard) =>
        double.IsNaN(value) ? null : new YellownessIndex(value, light, standard);
}

using System.Globalization;

using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Charts;

/// <summary>Spectral haze of one specimen with its uncertainty and the fitted power of the wavelength, H ∝ λ^−n.</summary>
public static class HazeSpectrumChart
{
    private static readonly SeriesLook HazeLook = new(LineKind.Solid, MarkKind.FilledCircle, Ink.Black);
    private static readonly SeriesLook FitLook = new(LineKind.Dashed, MarkKind.None, Ink.Vermilion) { LineWidth = 2 };

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="reading">The specimen, with its reduced spectra.</param>
    /// <param name="withBands">Whether the named bands and those of the method are shown above the spectrum, in place of the colours.</param>
    /// <exception cref="ChartRefusedException">The reading has no spectra, or diffuse transmittance was not measured.</exception>
    public static ChartModel Build(ChartReading reading, bool withBands = false)
    {
        ArgumentNullException.ThrowIfNull(reading);
        SpectralScan scan = SpectralScan.Of(reading);
        TransmittanceSpectra spectra = scan.Spectra;
        if (!scan.HasDiffuse || spectra.HazePercent.Count == 0)
        {
            throw new ChartRefusedException(
                $"Specimen {reading.Specimen} has no spectral haze: diffuse transmittance was not measured. Choose a reading with a diffuse scan.");
        }

        var coverage = Coverage.Of(reading.Evaluation, Measurands.Haze.Id);
        SeriesModel[] measured =
        [
            .. scan.Ribbon(spectra.HazePercent, spectra.HazeStandardUncertaintyPercent, 1, coverage),
            scan.Line(spectra.HazePercent, 1, "spectral haze", HazeLook, 0),
        ];
        (double low, double high) = AxisRange.Around(scan.Extent(measured, brightOnly: true), LeastSpan(scan));
        var chart = new ChartModel
        {
            Title = "Spectral haze",
            Subtitle = Wording.Specimen(reading),
            Panels =
            [
                new PanelModel
                {
                    X = new AxisModel(SpectralScan.XLabel, scan.Nm[0], scan.Nm[^1]),
                    Y = new AxisModel("Spectral haze (%)", low, high),
                    Series = [.. measured, .. Fit(scan)],
                },
            ],
            Notes = [.. Hint(reading.Evaluation), .. ChartNotes.Of([reading], Measurands.Haze.Id, Measurands.ScatteringExponent.Id), .. scan.DimNote()],
            Footer =
            [
                $"Method: {Wording.Standard(reading.Evaluation.Method?.HazeStandard ?? HazeStandard.Unspecified)}, "
                + $"{Wording.Pair(reading.Evaluation.Method?.Luminous)}. Scan {Wording.Grid(spectra.Grid)}. Haze = 100 × diffuse / total at each wavelength.",
                Wording.Source([reading]),
            ],
        };
        return withBands ? BandStrip.Above(chart, scan) : chart with { Panels = SpectralRegions.Name(chart.Panels, scan) };
    }

    private static double LeastSpan(SpectralScan scan) =>
        Math.Max(0.1, 0.2 * scan.Spectra.HazePercent.Where((haze, i) => double.IsFinite(haze) && scan.IsBright(i)).DefaultIfEmpty(0).Max());

    /// <summary>The fitted line over the wavelengths that it was fitted to; least squares of ln H on ln λ pass through the means of both.</summary>
    private static IEnumerable<SeriesModel> Fit(SpectralScan scan)
    {
        if (scan.Reading.Evaluation.Scattering is not { } fit)
        {
            yield break;
        }

        SpectralRange range = SpectralRange.MinimumUseful;
        (double Nm, double Haze)[] fitted =
            [.. scan.Nm.Zip(scan.Spectra.HazePercent).Where(pair => pair.First >= range.FromNm && pair.First <= range.ToNm && pair.Second > 0)];
        if (fitted.Length == 0)
        {
            yield break;
        }

        double level = fitted.Average(pair => Math.Log(pair.Haze) + (fit.Exponent * Math.Log(pair.Nm)));
        yield return new SeriesModel
        {
            Label = FitLabel(scan.Reading, fit, range),
            Look = FitLook,
            Points = [.. fitted.Select(pair => new ChartPoint(pair.Nm, Math.Exp(level - (fit.Exponent * Math.Log(pair.Nm)))))],
        };
    }

    private static string FitLabel(ChartReading reading, ScatteringFit fit, SpectralRange range)
    {
        string exponent = reading.Find(Measurands.ScatteringExponent.Id)?.Uncertainty is { } uncertainty
            ? string.Create(CultureInfo.InvariantCulture, $"n = {fit.Exponent:0.00}, u(n) = {uncertainty.StandardUncertainty:0.000} (from the scans), {fit.ExponentStandardError:0.000} (of the fit)")
            : string.Create(CultureInfo.InvariantCulture, $"n = {fit.Exponent:0.00} ± {fit.ExponentStandardError:0.00} (standard error of the fit)");
        return $"fit a λ^−n, {Wording.Number(range.FromNm)}-{Wording.Number(range.ToNm)} nm: {exponent.Replace("= -", "= −", StringComparison.Ordinal)}";
    }

    private static IEnumerable<string> Hint(V1.Evaluation evaluation) => evaluation.Scattering is { Suggestion.Length: > 0 } fit
        ? [$"Hint, no finding: {fit.Suggestion}."]
        : [];
}

using ClearView.Optics.Evaluations;
using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;

namespace ClearView.Plotting.Charts;

/// <summary>The charts of a demonstration: a film shift and a bottle set from every side.</summary>
public static class DemoChartSet
{
    /// <summary>Writes the charts as PNG and SVG.</summary>
    /// <param name="folder">Where to; created when it does not exist.</param>
    /// <param name="film">Readings of the film shift, with spectra.</param>
    /// <param name="bottles">Readings of the bottle set, with spectra.</param>
    /// <param name="hazeLimit">Limit of the film's haze, %.</param>
    /// <param name="yellownessLimit">Limit of the film's yellowness index E313.</param>
    /// <returns>The paths that were written.</returns>
    /// <exception cref="ChartRefusedException">There is no film reading or no bottle reading with spectra.</exception>
    public static IReadOnlyList<string> Write(
        string folder,
        IReadOnlyList<ChartReading> film,
        IReadOnlyList<ChartReading> bottles,
        RunLimit? hazeLimit,
        RunLimit? yellownessLimit)
    {
        ArgumentNullException.ThrowIfNull(film);
        ArgumentNullException.ThrowIfNull(bottles);
        (string Name, ChartModel Chart)[] charts =
        [
            ("film-haze-run", RunChart.Build(film, Measurands.Haze.Id, hazeLimit)),
            ("film-yellowness-run", RunChart.Build(film, Measurands.YellownessIndexE313.Id, yellownessLimit)),
            ("film-spectrum-typical", SpectralTransmittanceChart.Build(ByHaze(film, 0.5))),
            ("film-spectrum-worst", SpectralTransmittanceChart.Build(ByHaze(film, 1))),
            ("film-colour", ColourPlaneChart.Build(film)),
            ("film-chromaticity", ChromaticityChart.Build(film)),
            ("bottle-spectrum-clearest", SpectralTransmittanceChart.Build(ByTransmittance(bottles, 1))),
            ("bottle-spectrum-darkest", SpectralTransmittanceChart.Build(ByTransmittance(bottles, 0))),
            ("bottle-colour", ColourPlaneChart.Build(bottles)),
            ("bottle-chromaticity", ChromaticityChart.Build(bottles)),
        ];
        return [.. charts.SelectMany(chart => ChartWriter.Write(chart.Chart, folder, chart.Name, [ChartFormat.Png, ChartFormat.Svg]))];
    }

    private static ChartReading ByHaze(IReadOnlyList<ChartReading> readings, double rank) => Ranked(readings, Measurands.Haze, rank);

    private static ChartReading ByTransmittance(IReadOnlyList<ChartReading> readings, double rank) =>
        Ranked(readings, Measurands.LuminousTransmittance, rank);

    private static ChartReading Ranked(IReadOnlyList<ChartReading> readings, Optics.Evaluations.Measurand measurand, double rank)
    {
        ChartReading[] ordered = [.. readings.Where(r => r.Evaluation.Spectra is not null && r.Find(measurand.Id) is not null).OrderBy(r => r.Find(measurand.Id)!.Value)];
        return ordered.Length > 0
            ? ordered[(int)Math.Round(rank * (ordered.Length - 1))]
            : throw new ChartRefusedException($"None of the {readings.Count} readings has spectra and {measurand.Name}.");
    }
}

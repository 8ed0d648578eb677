using ClearView.Optics.Evaluations;
using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;

namespace ClearView.Plotting.Charts;

/// <summary>The charts of a demonstration: a film shift and a bottle set from every side.</summary>
public static class DemoChartSet
{
    /// <summary>Writes the charts as PNG and SVG. Budget, light barrier and walls are written where the readings carry them.</summary>
    /// <param name="folder">Where to; created when it does not exist.</param>
    /// <param name="film">Readings of the film shift, with spectra.</param>
    /// <param name="bottles">Readings of the bottle set, with spectra.</param>
    /// <param name="screened">Readings of bottle walls that reach over 290-450 nm, screened against a limit.</param>
    /// <param name="hazeLimit">Limit of the film's haze, %.</param>
    /// <param name="yellownessLimit">Limit of the film's yellowness index E313.</param>
    /// <returns>The paths that were written.</returns>
    /// <exception cref="ChartRefusedException">There is no film reading or no bottle reading with spectra.</exception>
    public static IReadOnlyList<string> Write(
        string folder,
        IReadOnlyList<ChartReading> film,
        IReadOnlyList<ChartReading> bottles,
        IReadOnlyList<ChartReading> screened,
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
            ("film-haze-spectrum", HazeSpectrumChart.Build(ByHaze(film, 0.5))),
            .. WithSpectraInBands(film, bottles),
            .. Budgets(film),
            .. LightBarriers(screened),
            .. Walls(bottles),
        ];
        return [.. charts.SelectMany(chart => ChartWriter.Write(chart.Chart, folder, chart.Name, [ChartFormat.Png, ChartFormat.Svg]))];
    }

    private static IEnumerable<(string Name, ChartModel Chart)> WithSpectraInBands(IReadOnlyList<ChartReading> film, IReadOnlyList<ChartReading> bottles) =>
    [
        ("film-spectrum-bands", SpectralTransmittanceChart.Build(ByHaze(film, 0.5), withBands: true)),
        ("bottle-spectrum-bands", SpectralTransmittanceChart.Build(ByTransmittance(bottles, 0), withBands: true)),
    ];

    private static IEnumerable<(string Name, ChartModel Chart)> Budgets(IReadOnlyList<ChartReading> film) =>
        ByHaze(film, 0.5) is var typical && typical.Evaluation.Values.Any(value => value.Uncertainty is { Budget.Count: > 0 })
            ? [("film-uncertainty-budget", BudgetChart.Build(typical, []))]
            : [];

    /// <summary>The darkest and the clearest wall of each product, where the walls were screened.</summary>
    private static IEnumerable<(string Name, ChartModel Chart)> LightBarriers(IReadOnlyList<ChartReading> bottles)
    {
        ChartReading[] extremes =
        [
            .. bottles
                .Where(reading => reading.Evaluation is { LightBarrier: not null, Spectra: not null })
                .GroupBy(reading => reading.Product, StringComparer.Ordinal)
                .SelectMany(product => new[]
                {
                    product.MinBy(reading => reading.Evaluation.LightBarrier.MaximumPercent)!,
                    product.MaxBy(reading => reading.Evaluation.LightBarrier.MaximumPercent)!,
                }.Distinct())
                .Take(LightBarrierChart.MostReadings),
        ];
        return extremes.Length > 0 ? [("bottle-light-barrier", LightBarrierChart.Build(extremes))] : [];
    }

    private static IEnumerable<(string Name, ChartModel Chart)> Walls(IReadOnlyList<ChartReading> bottles) =>
        bottles.Any(reading => WallChart.Region(reading) is not null)
            ? [("bottle-walls", WallChart.Build(bottles, []))]
            : [];

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

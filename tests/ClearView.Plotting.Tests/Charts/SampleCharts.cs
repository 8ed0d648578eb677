using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;

namespace ClearView.Plotting.Tests.Charts;

/// <summary>One chart of every kind, by name.</summary>
internal static class SampleCharts
{
    public static readonly IReadOnlyDictionary<string, Func<ChartModel>> All = new Dictionary<string, Func<ChartModel>>
    {
        ["spectral, clear"] = () => SpectralTransmittanceChart.Build(SampleReadings.Film()),
        ["spectral, diffusing"] = () => SpectralTransmittanceChart.Build(SampleReadings.Film(totalPercent: 80, diffusePercent: 60)),
        ["spectral, total only"] = () => SpectralTransmittanceChart.Build(SampleReadings.Film(diffusePercent: null)),
        ["spectral, clear, uncertain"] = () => SpectralTransmittanceChart.Build(SampleUncertainty.Film()),
        ["spectral, diffusing, uncertain"] = () => SpectralTransmittanceChart.Build(SampleUncertainty.Film(totalPercent: 80, diffusePercent: 60)),
        ["spectral, bands"] = () => SpectralTransmittanceChart.Build(SampleUncertainty.Film(method: WithOwnBands()), withBands: true),
        ["spectral, bands from the ultraviolet"] = () => SpectralTransmittanceChart.Build(SampleBottles.Wall(), withBands: true),
        ["haze spectrum"] = () => HazeSpectrumChart.Build(SampleUncertainty.Film()),
        ["haze spectrum, bands"] = () => HazeSpectrumChart.Build(SampleUncertainty.Film(method: WithOwnBands()), withBands: true),
        ["budget"] = () => BudgetChart.Build(SampleUncertainty.Film(), []),
        ["budget, one"] = () => BudgetChart.Build(SampleUncertainty.Film(), ["cielab_b"]),
        ["light barrier, one"] = () => LightBarrierChart.Build([SampleBottles.Wall(uncertain: true)]),
        ["light barrier, above and near the limit"] = () => LightBarrierChart.Build(
            [SampleBottles.Wall(edgeNm: 486, uncertain: true), SampleBottles.Wall(edgeNm: 440, uncertain: true, specimen: "B2")]),
        ["light barrier, most"] = () => LightBarrierChart.Build(
            [.. Enumerable.Range(0, 8).Select(i => SampleBottles.Wall(edgeNm: 520 - (8 * i), specimen: $"B{i}", uncertain: true))]),
        ["wall, one product"] = () => WallChart.Build([.. SampleBottles.Set().Take(12)], []),
        ["wall, two products"] = () => WallChart.Build(SampleBottles.Set(), ["luminous_transmittance", "haze", "cielab_b"]),
        ["run, uncertain"] = () => RunChart.Build(SampleUncertainty.Run(), "haze", new RunLimit(null, 3)),
        ["colour, uncertain"] = () => ColourPlaneChart.Build(SampleUncertainty.Run()),
        ["colour, one"] = () => ColourPlaneChart.Build([SampleReadings.Film()]),
        ["colour, most groups"] = () => ColourPlaneChart.Build(SampleReadings.Run(13, 2)),
        ["chromaticity, one"] = () => ChromaticityChart.Build([SampleReadings.Film(blueLossPercent: 5)]),
        ["chromaticity, two products"] = () => ChromaticityChart.Build(
            [SampleReadings.Film(product: "A", blueLossPercent: 5), SampleReadings.Film(product: "B", blueLossPercent: 60)]),
        ["chromaticity, most groups"] = () => ChromaticityChart.Build(SampleReadings.Run(12, 2)),
        ["run, one reading"] = () => RunChart.Build([SampleReadings.Film()], "haze", null),
        ["run, rolls and limit"] = () => RunChart.Build(SampleReadings.Run(5, 4), "haze", new RunLimit(null, 3)),
    };

    public static V1.Method WithOwnBands()
    {
        V1.Method method = SampleUncertainty.Method();
        method.Bands.Add(new V1.WavelengthBand { FromNm = 400, ToNm = 450 });
        method.Bands.Add(new V1.WavelengthBand { FromNm = 640, ToNm = 670 });
        return method;
    }

    public static TheoryData<string> Names => [.. All.Keys];
}

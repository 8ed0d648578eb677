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
        ["colour, one"] = () => ColourPlaneChart.Build([SampleReadings.Film()]),
        ["colour, most groups"] = () => ColourPlaneChart.Build(SampleReadings.Run(13, 2)),
        ["chromaticity, one"] = () => ChromaticityChart.Build([SampleReadings.Film(blueLossPercent: 5)]),
        ["chromaticity, two products"] = () => ChromaticityChart.Build(
            [SampleReadings.Film(product: "A", blueLossPercent: 5), SampleReadings.Film(product: "B", blueLossPercent: 60)]),
        ["chromaticity, most groups"] = () => ChromaticityChart.Build(SampleReadings.Run(12, 2)),
        ["run, one reading"] = () => RunChart.Build([SampleReadings.Film()], "haze", null),
        ["run, rolls and limit"] = () => RunChart.Build(SampleReadings.Run(5, 4), "haze", new RunLimit(null, 3)),
    };

    public static TheoryData<string> Names => [.. All.Keys];
}

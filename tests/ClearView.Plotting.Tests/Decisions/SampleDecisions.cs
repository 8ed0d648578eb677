using ClearView.Plotting.Decisions;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Tests.Decisions;

/// <summary>Charts of decisions of every kind, plain and awkward, by name.</summary>
internal static class SampleDecisions
{
    public static readonly IReadOnlyDictionary<string, Func<ChartModel>> All = new Dictionary<string, Func<ChartModel>>
    {
        ["control, individuals"] = () => ProcessChart.Build(SampleControlCharts.Individuals()),
        ["control, one point"] = () => ProcessChart.Build(SampleControlCharts.Individuals(1)),
        ["control, many points"] = () => ProcessChart.Build(SampleControlCharts.Individuals(2000)),
        ["control, averages in phases"] = () => ProcessChart.Build(SampleControlCharts.Averages()),
        ["control, every pattern"] = () => ProcessChart.Build(SampleControlCharts.WithPatterns([.. Enum.GetValues<ControlPattern>().Where(p => p != ControlPattern.Unspecified)])),
        ["control, ewma"] = () => ProcessChart.Build(SampleControlCharts.Ewma()),
        ["control, cusum"] = () => ProcessChart.Build(SampleControlCharts.Cusum()),
        ["control, thinned"] = () => ProcessChart.Build(SampleControlCharts.Thinned()),
        ["capability"] = () => CapabilityChart.Build(SampleCapabilities.Normal(new SeriesLimits { Lower = 1.8, Upper = 3, Target = 2.45 })),
        ["capability, one limit"] = () => CapabilityChart.Build(SampleCapabilities.Normal(new SeriesLimits { Upper = 3 })),
        ["capability, crowded"] = () => CapabilityChart.Build(SampleCapabilities.Crowded()),
        ["capability, refused"] = () => CapabilityChart.Build(SampleCapabilities.Refused()),
        ["capability, no readings"] = () => CapabilityChart.Build(SampleCapabilities.WithoutReadings()),
        ["roll"] = () => RollMapChart.Build(SampleRolls.Map(limits: new SeriesLimits { Upper = 2.8 })),
        ["roll, both limits"] = () => RollMapChart.Build(SampleRolls.Map(limits: new SeriesLimits { Lower = 2.2, Upper = 2.7, Target = 2.45 })),
        ["roll, far limits"] = () => RollMapChart.Build(SampleRolls.Map(limits: new SeriesLimits { Lower = 0.1, Upper = 8 })),
        ["roll, one cell"] = () => RollMapChart.Build(SampleRolls.Map(1, 1, -1, withEmpty: false)),
        ["roll, fine"] = () => RollMapChart.Build(SampleRolls.Map(100, 200, 40)),
        ["lots"] = () => LotComparisonChart.Build(SampleLots.Comparison()),
        ["lots, aged"] = () => LotComparisonChart.Build(SampleLots.Comparison(3, 12, aged: true)),
        ["lots, most, long names"] = () => LotComparisonChart.Build(SampleLots.Comparison(20, 30, longNames: true, aged: true)),
        ["lots, one specimen each"] = () => LotComparisonChart.Build(SampleLots.Comparison(2, 1, withBands: false)),
        ["lots, many specimens"] = () => LotComparisonChart.Build(SampleLots.Comparison(3, 2500)),
        ["plan"] = () => OperatingCharacteristicChart.Build(SamplePlans.Plan()),
        ["plan, far apart"] = () => OperatingCharacteristicChart.Build(SamplePlans.Plan(0.1, 40)),
        ["verdict"] = () => VerdictChart.Build(SampleVerdicts.Certificate()),
        ["verdict, one limit"] = () => VerdictChart.Build(SampleVerdicts.Of(SampleVerdicts.Limit("Haze", "%", null, 3, null, 2.95, 0.12, VerdictOutcome.NeitherProven))),
    };

    public static TheoryData<string> Names => [.. All.Keys];
}

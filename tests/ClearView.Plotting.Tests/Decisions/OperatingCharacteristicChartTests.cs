using ClearView.Plotting.Charts;
using ClearView.Plotting.Decisions;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Tests.Decisions;

public sealed class OperatingCharacteristicChartTests
{
    [Fact]
    public void Build_BothPoints_LieAtTheirRisksWithTheirWords()
    {
        PanelModel panel = OperatingCharacteristicChart.Build(SamplePlans.Plan()).Panels[0];

        Assert.Equal(new ChartPoint(1, 95.2), Assert.Single(panel.Series.Single(series => series.Label == "producer's point").Points));
        Assert.Equal(new ChartPoint(6, 9.7), Assert.Single(panel.Series.Single(series => series.Label == "consumer's point").Points));
        Assert.Contains(panel.Annotations, word => word.Text.Contains("4.8 % (producer's risk)", StringComparison.Ordinal));
        Assert.Contains(panel.Annotations, word => word.Text.Contains("9.7 % (consumer's risk)", StringComparison.Ordinal));
        Assert.True(panel.X.Maximum > 6);
    }

    [Fact]
    public void Build_WithoutCurve_IsRefused() =>
        Assert.Throws<ChartRefusedException>(() => OperatingCharacteristicChart.Build(new AcceptancePlan { Request = new AcceptancePlanRequest() }));
}

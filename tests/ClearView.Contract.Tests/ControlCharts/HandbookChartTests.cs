using ClearView.V1;

namespace ClearView.Contract.Tests.ControlCharts;

/// <summary>Worked examples of the NIST/SEMATECH e-Handbook of Statistical Methods, from memory, from message to message.</summary>
public sealed class HandbookChartTests
{
    private static readonly double[] Flowrate = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

    // 6.3.2.2: mean 50.81, mean moving range 1.8778, limits 50.81 ± 3 · 1.8778 / d2, printed with d2 rounded to 1.128, which is 3.4e-4 of the width of 5.
    [Fact]
    public void Individuals_Flowrate_LimitsFromTheBaseline()
    {
        ControlChart chart = ChartExamples.Individuals();
        chart.Phases[0].Baseline = new MeasuredSpan();

        DrawnControlChart[] parts = ChartExamples.Draw(chart, Flowrate);

        FrozenLimits limits = parts[0].ControlChart.ControlChart.Phases[0].Limits;
        Assert.Equal(50.81, limits.Centre, 1e-12);
        Assert.Equal(1.8778 / 1.1284, limits.StandardDeviation, 0.0001);
        Assert.Equal((10u, 1u), (limits.BaselineCount, limits.SubgroupCount));
        Assert.Equal((ChartExamples.At(0), ChartExamples.At(9)), (limits.Baseline.MeasuredFrom, Whole(limits.Baseline.MeasuredBefore)));
        ControlChartPoint last = parts[1].Points[^1];
        Assert.Equal(10, parts[1].Points.Count);
        Assert.Equal(50.81 - (3 * 1.8778 / 1.128), last.Lower, 0.002);
        Assert.Equal(50.81 + (3 * 1.8778 / 1.128), last.Upper, 0.002);
        Assert.Equal(1.5, last.Spread, 1e-12);
        Assert.False(parts[1].Points[0].HasSpread);
        Assert.Equal(0ul, parts[0].Summary.SignalPointCount);
    }

    // 6.3.2.4: λ = 0.3, target 50, s = 2.0539; the last of the printed EWMA column, and limits of long series 47.4115 and 52.5884.
    [Fact]
    public void Ewma_Example()
    {
        double[] data = [52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
        ControlChart chart = ChartExamples.Individuals(50, 2.0539);
        chart.Kind = ControlChartKind.Ewma;
        chart.Ewma = new EwmaSettings { Weight = 0.3, LimitWidth = 3 };

        ControlChartPoint last = ChartExamples.Draw(chart, data)[1].Points[^1];

        Assert.Equal(51.99, last.Plotted, 0.0051);
        Assert.Equal(52.1, last.Value);
        Assert.Equal(52.5884, last.Upper, 0.002);
        Assert.Equal(47.4115, last.Lower, 0.002);
        Assert.False(last.HasSpread);
    }

    // 6.3.2.3: target 325, k = 0.3175, h = 4.1959 with σ = 1; the printed sum of the last point, and the first signal at the 14th.
    [Fact]
    public void Cusum_Example()
    {
        double[] data =
        [
            324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
            324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350,
        ];
        ControlChart chart = ChartExamples.Individuals(300, 1);
        chart.Kind = ControlChartKind.Cusum;
        chart.Cusum = new CusumSettings { Slack = 0.3175, DecisionInterval = 4.1959, Target = 325 };

        DrawnControlChart[] parts = ChartExamples.Draw(chart, data);

        Assert.Equal(19.04, parts[1].Points[^1].SumAbove, 0.0051);
        Assert.Equal(0.56, parts[1].Points[6].SumBelow, 0.0051);
        Assert.Equal(13ul, parts[1].Points.First(point => point.Patterns.Count > 0).PositionCount);
        PatternCount count = Assert.Single(parts[0].Summary.Patterns);
        Assert.Equal((ControlPattern.SumAboveTarget, 7ul), (count.Pattern, count.PointCount));
    }

    // The last reading is included: the end is just after it.
    private static Google.Protobuf.WellKnownTypes.Timestamp Whole(Google.Protobuf.WellKnownTypes.Timestamp time)
    {
        Assert.Equal(100, time.Nanos);
        return new() { Seconds = time.Seconds };
    }
}

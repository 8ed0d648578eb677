using ClearView.Quality.ControlCharts;

namespace ClearView.Quality.Tests.ControlCharts;

/// <summary>Worked examples of the NIST/SEMATECH e-Handbook of Statistical Methods, from memory.</summary>
public sealed class HandbookChartTests
{
    // 6.3.2.2: flowrates; mean 50.81, mean moving range 1.8778, limits 45.8105 and 55.8095 from d2 = 1.128.
    [Fact]
    public void Individuals_Flowrate()
    {
        double[] flowrate = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

        ControlLimits limits = ControlBaseline.OfIndividuals(flowrate).Limits!;

        Assert.Equal(50.81, limits.Centre, 1e-12);
        Assert.Equal(1.8778, limits.ForSpread(1)!.Value.Centre, 0.00005);
        // The printed limits use d2 rounded to 1.128, which is 3.4e-4 of the width of 5.
        Assert.Equal(50.81 - (3 * 1.8778 / 1.128), limits.ForMean(1).Lower, 0.002);
        Assert.Equal(50.81 + (3 * 1.8778 / 1.128), limits.ForMean(1).Upper, 0.002);
        Assert.Equal(0, SignalCount.Of(limits, RunRules.LimitsOnly, flowrate).PointsWithSignals);
    }

    // 6.3.2.4: λ = 0.3, target 50, s = 2.0539; the printed EWMA column, and limits for long series 47.4115 and 52.5884.
    [Fact]
    public void Ewma_Example()
    {
        double[] data = [52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
        double[] printed = [50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99];
        ControlState state = new(
            ControlLimits.Given(ControlChartKind.Individuals, 50, 2.0539).WithEwma(new EwmaSettings(0.3, 3)), RunRules.LimitsOnly);

        ControlPoint[] points = [.. data.Select(value => state.Add(value))];

        foreach ((int i, double value) in printed.Index())
        {
            Assert.Equal(value, points[i].Plotted, 0.0051);
        }

        // After 20 points the exact limits have reached those of a long series to 1e-4.
        Assert.Equal(52.5884, points[^1].Limits.Upper, 0.002);
        Assert.Equal(47.4115, points[^1].Limits.Lower, 0.002);
        // Exact limits of the first point: 50 ± 3 · 0.3 · 2.0539.
        Assert.Equal(50 + (3 * 0.3 * 2.0539), points[0].Limits.Upper, 1e-12);
        Assert.All(points, point => Assert.Equal(ControlSignals.None, point.Signals));
    }

    // 6.3.2.3: target 325, k = 0.3175, h = 4.1959, both in the unit of the readings here (σ = 1); the printed sums of the last points.
    [Fact]
    public void Cusum_Example()
    {
        double[] data =
        [
            324.925, 324.675, 324.725, 324.350, 325.350, 325.225, 324.125, 324.525, 325.225, 324.600,
            324.625, 325.150, 328.325, 327.250, 327.825, 328.500, 326.675, 327.775, 326.875, 328.350,
        ];
        ControlState state = new(
            ControlLimits.Given(ControlChartKind.Individuals, 325, 1).WithCusum(new CusumSettings(0.3175, 4.1959)), RunRules.LimitsOnly);

        ControlPoint[] points = [.. data.Select(value => state.Add(value))];

        double[] above = [3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16.00, 19.04];
        foreach ((int i, double value) in above.Index())
        {
            Assert.Equal(value, points[12 + i].SumAbove, 0.0051);
        }

        Assert.Equal(0.56, points[6].SumBelow, 0.0051);
        Assert.Equal(0.72, points[7].SumBelow, 0.0051);
        // The first signal is at the 14th group.
        Assert.Equal(13, points.First(point => point.Signals == ControlSignals.SumAboveTarget).Index);
        Assert.DoesNotContain(points, point => point.Signals.HasFlag(ControlSignals.SumBelowTarget));
    }
}

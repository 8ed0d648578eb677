using ClearView.Contract.ControlCharts;
using ClearView.Contract.Validation;
using ClearView.V1;

namespace ClearView.Contract.Tests.ControlCharts;

public sealed class BaselineFreezerTests
{
    [Fact]
    public void Draw_BaselineWithoutSpread_SaysWhy()
    {
        ControlChart chart = ChartExamples.Individuals();
        chart.Phases.Add(new ControlPhase { Name = "new die", MeasuredFrom = ChartExamples.At(3), Baseline = new MeasuredSpan { MeasuredFrom = ChartExamples.At(3) } });

        FieldViolation violation = Assert.Single(Refused(chart, [1, 2, 3, 2, 2, 2]));

        Assert.Equal("control_chart.phases[1].baseline", violation.Field);
        Assert.Contains("do not differ", violation.Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Draw_BaselineWithoutReadings_SaysWhy()
    {
        ControlChart chart = ChartExamples.Individuals();
        chart.Phases[0].Baseline = new MeasuredSpan { MeasuredFrom = ChartExamples.At(100) };

        Assert.Contains("0 readings", Assert.Single(Refused(chart, [1, 2, 3])).Description, StringComparison.Ordinal);
    }

    [Fact]
    public void Freeze_BaselineThatSignals_RemarksHowMany()
    {
        double[] values = ChartExamples.Normal(11, 200);
        values[50] = 40;
        values[120] = -40;

        FrozenLimits limits = Freeze(ChartExamples.Individuals(), values);

        Assert.Contains("2 points of the baseline beyond the limits taken from it", limits.Remarks);
        Assert.Contains(limits.Remarks, remark => remark.StartsWith("4 points of the baseline with a spread beyond", StringComparison.Ordinal));
        Assert.DoesNotContain(limits.Remarks, remark => remark.Contains("only", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(19, true)]
    [InlineData(20, false)]
    public void Freeze_FewReadings_AreRemarked(int count, bool remarked)
    {
        FrozenLimits limits = Freeze(ChartExamples.Individuals(), ChartExamples.Normal(3, count));

        Assert.Equal(remarked, limits.Remarks.Any(remark => remark.StartsWith("the baseline has only 19 readings", StringComparison.Ordinal)));
    }

    // By hand: ranges 2 and 4 of two readings, d2(2) = 1.1284, mean 3 / 1.1284; the third subgroup is not finished.
    [Fact]
    public void Freeze_ConsecutiveSubgroups_TakesWholeOnesOnly()
    {
        FrozenLimits limits = Freeze(ChartExamples.Averages(2), [0, 2, 1, 5, 9]);

        Assert.Equal(3 / 1.1284, limits.StandardDeviation, 1e-4);
        Assert.Equal(2, limits.Centre, 1e-12);
        Assert.Equal((2u, 2u), (limits.BaselineCount, limits.SubgroupCount));
        Assert.Equal("mean range / d2", limits.Estimate);
    }

    [Fact]
    public void Draw_ByLabel_LeavesSubgroupsOfOneOut()
    {
        ControlChart chart = ChartExamples.Averages();
        chart.Subgrouping.Label = SubgroupLabel.Given;
        chart.Phases[0].Baseline = new MeasuredSpan();
        DrawControlChartRequest request = new()
        {
            ControlChart = chart,
            Values = ChartExamples.Values([0, 2, 7, 1, 5, 9], ["a", "a", "b", "c", "c", "d"]),
        };

        DrawnControlChart[] parts = ChartExamples.Draw(request);

        FrozenLimits limits = parts[0].ControlChart.ControlChart.Phases[0].Limits;
        Assert.Equal(3 / 1.1284, limits.StandardDeviation, 1e-4);
        Assert.Contains("1 subgroup of a single reading left out", limits.Remarks);
        Assert.Equal(["a", "b", "c"], parts[1].Points.Select(point => point.Label));
        Assert.Equal(1ul, parts[0].Summary.UnplottedReadingCount);
    }

    [Fact]
    public void Draw_ByLabelWithoutLabels_IsRefused()
    {
        ControlChart chart = ChartExamples.Averages();
        chart.Subgrouping.Label = SubgroupLabel.Given;

        Assert.Equal("values.label", Assert.Single(Refused(chart, [1, 2, 3])).Field);
    }

    [Fact]
    public void Draw_ValuesOfAnotherMeasurand_AreRefused()
    {
        ControlChart chart = ChartExamples.Individuals();
        chart.Series.Measurand = "clarity";
        chart.Kind = ControlChartKind.Unspecified;

        Assert.Equal(["control_chart.kind", "values.measurand"], Refused(chart, [1, 2, 3]).Select(violation => violation.Field).Where(field => field != "control_chart.series.measurand"));
    }

    // Limits that were frozen and are drawn again give the same chart as their baseline did.
    [Theory]
    [InlineData(ControlChartKind.Individuals, 0)]
    [InlineData(ControlChartKind.AveragesWithRange, 4)]
    [InlineData(ControlChartKind.AveragesWithStandardDeviation, 4)]
    [InlineData(ControlChartKind.Ewma, 0)]
    [InlineData(ControlChartKind.Ewma, 4)]
    [InlineData(ControlChartKind.Cusum, 0)]
    [InlineData(ControlChartKind.Cusum, 4)]
    public void Draw_FrozenLimits_GiveTheSameChartAgain(ControlChartKind kind, int size)
    {
        ControlChart chart = ChartExamples.Individuals();
        chart.Kind = kind;
        chart.Subgrouping = size == 0 ? null : new Subgrouping { ConsecutiveCount = (uint)size };
        chart.Phases[0].Baseline = new MeasuredSpan { MeasuredBefore = ChartExamples.At(100) };
        double[] values = ChartExamples.Normal(8, 300);

        DrawnControlChart[] first = ChartExamples.Draw(chart, values);
        DrawnControlChart[] again = ChartExamples.Draw(first[0].ControlChart.ControlChart, values);

        Assert.Equal(first, again);
        Assert.Equal(size == 0 ? 300 : 75, first[1].Points.Count);
    }

    private static FrozenLimits Freeze(ControlChart chart, double[] values)
    {
        chart.Phases[0].Baseline = new MeasuredSpan();
        Violations violations = new();
        FrozenLimits? limits = BaselineFreezer.Freeze(
            chart, 0, ChartExamples.Columns(values.Select((value, i) => (i, (long)i, value))), "control_chart", violations);
        Assert.Empty(violations.ToImmutable());
        return limits!;
    }

    private static FieldViolation[] Refused(ControlChart chart, double[] values)
    {
        Violations violations = new();
        Assert.Null(GivenControlChart.Draw(new DrawControlChartRequest { ControlChart = chart, Values = ChartExamples.Values(values) }, violations));
        return [.. violations.ToImmutable()];
    }
}

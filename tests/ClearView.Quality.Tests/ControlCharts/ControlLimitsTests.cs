using ClearView.Quality.ControlCharts;
using ClearView.Quality.Tests.Reference;

using FsCheck.Xunit;

namespace ClearView.Quality.Tests.ControlCharts;

public sealed class ControlLimitsTests
{
    // With equal sizes: mean ± A2·mean range (or A3·mean s), D3/D4 and B3/B4 times the mean (ISO 7870-2).
    [Theory]
    [InlineData(ControlChartKind.AveragesWithRange)]
    [InlineData(ControlChartKind.AveragesWithStandardDeviation)]
    public void OfSubgroups_EqualSizes_AreTheTextbookLimits(ControlChartKind kind)
    {
        bool range = kind == ControlChartKind.AveragesWithRange;
        Subgroup[] subgroups = Subgroups(Draws.Normal(7, 100, 20, 3), 5);
        double grand = subgroups.Average(one => one.Mean);
        double spread = subgroups.Average(one => range ? one.Range : one.StandardDeviation);
        ChartFactors factors = ChartFactors.Of(5);

        ControlLimits limits = ControlBaseline.OfSubgroups(kind, subgroups).Limits!;

        Assert.Equal(grand + ((range ? factors.A2 : factors.A3) * spread), limits.ForMean(5).Upper, 1e-10);
        Assert.Equal(grand - ((range ? factors.A2 : factors.A3) * spread), limits.ForMean(5).Lower, 1e-10);
        Assert.Equal((range ? factors.RangeUpperFactor : factors.DeviationUpperFactor) * spread, limits.ForSpread(5)!.Value.Upper, 1e-10);
        Assert.Equal(spread, limits.ForSpread(5)!.Value.Centre, 1e-10);
        Assert.Equal(20, limits.BaselineCount);
        Assert.Equal(5, limits.SubgroupSize);
    }

    // Theory: whatever the sizes, σ is met; 2000 subgroups of 2 to 6 readings, within four standard errors.
    [Theory]
    [InlineData(ControlChartKind.AveragesWithRange)]
    [InlineData(ControlChartKind.AveragesWithStandardDeviation)]
    public void OfSubgroups_UnequalSizes_MeetSigma(ControlChartKind kind)
    {
        double[] drawn = Draws.Normal(8, 8000, 20, 3);
        List<Subgroup> subgroups = [];
        for (int i = 0, size = 2; i + size <= drawn.Length; i += size, size = 2 + (subgroups.Count % 5))
        {
            subgroups.Add(Subgroup.Of(drawn.AsSpan(i, size)));
        }

        ControlLimits limits = ControlBaseline.OfSubgroups(kind, subgroups.ToArray()).Limits!;

        Assert.Equal(3, limits.StandardDeviation, 4 * 3 / Math.Sqrt(2 * 5000));
        Assert.Equal(20, limits.Centre, 4 * 3 / Math.Sqrt(8000));
        Assert.True(limits.ForMean(2).Upper > limits.ForMean(6).Upper);
    }

    [Property(Replay = "(20240414,17)", MaxTest = 100)]
    public void OfIndividuals_ShiftAndScale_MoveTheLimits(int seed, short shift, byte factor)
    {
        double scale = (factor + 1) / 16.0;
        double[] drawn = Draws.Normal(seed, 40);
        ControlLimits plain = ControlBaseline.OfIndividuals(drawn).Limits!;

        ControlLimits moved = ControlBaseline.OfIndividuals(drawn.Select(value => shift + (scale * value)).ToArray()).Limits!;

        Assert.Equal(shift + (scale * plain.Centre), moved.Centre, 1e-8);
        Assert.Equal(scale * plain.StandardDeviation, moved.StandardDeviation, 1e-8);
    }

    // The order within a subgroup, and of the subgroups in a baseline, says nothing.
    [Property(Replay = "(20240415,19)", MaxTest = 50)]
    public void OfSubgroups_AnyOrder_IsTheSame(int seed)
    {
        Subgroup[] subgroups = Subgroups(Draws.Normal(seed, 60), 4);
        Subgroup[] shuffled = [.. subgroups];
        new Random(seed).Shuffle(shuffled);

        ControlLimits one = ControlBaseline.OfSubgroups(ControlChartKind.AveragesWithRange, subgroups).Limits!;
        ControlLimits other = ControlBaseline.OfSubgroups(ControlChartKind.AveragesWithRange, shuffled).Limits!;

        Assert.Equal(one.Centre, other.Centre, 1e-12);
        Assert.Equal(one.StandardDeviation, other.StandardDeviation, 1e-12);
    }

    [Fact]
    public void Baseline_ThatGivesNoLimits_SaysWhy()
    {
        Assert.Contains("1 readings", ControlBaseline.OfIndividuals([1]).Refusal, StringComparison.Ordinal);
        Assert.Contains("do not differ", ControlBaseline.OfIndividuals([1, 1, 1]).Refusal, StringComparison.Ordinal);
        Assert.Contains("1 subgroups", ControlBaseline.OfSubgroups(ControlChartKind.AveragesWithRange, [new Subgroup(5, 1, 1, 1)]).Refusal, StringComparison.Ordinal);
        Assert.Contains("2 to 25", ControlBaseline.OfSubgroups(ControlChartKind.AveragesWithRange, [new Subgroup(5, 1, 1, 1), new Subgroup(26, 1, 1, 1)]).Refusal, StringComparison.Ordinal);
        Assert.True(ControlBaseline.OfSubgroups(ControlChartKind.AveragesWithStandardDeviation, [new Subgroup(5, 1, 1, 1), new Subgroup(26, 1, 1, 1)]).HasLimits);
        Assert.Throws<ArgumentException>(() => ControlBaseline.OfIndividuals([1, double.NaN]));
    }

    [Fact]
    public void Given_OutsideItsRange_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ControlLimits.Given(ControlChartKind.Individuals, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => ControlLimits.Given(ControlChartKind.Individuals, double.NaN, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => ControlLimits.Given(ControlChartKind.Individuals, 0, 1, 2));
        Assert.Throws<ArgumentOutOfRangeException>(() => ControlLimits.Given(ControlChartKind.Ewma, 0, 1));
        ControlLimits limits = ControlLimits.Given(ControlChartKind.Individuals, 0, 1);
        Assert.Throws<ArgumentOutOfRangeException>(() => limits.WithEwma(new EwmaSettings(0, 3)));
        Assert.Throws<ArgumentOutOfRangeException>(() => limits.WithEwma(new EwmaSettings(1.01, 3)));
        Assert.Throws<ArgumentOutOfRangeException>(() => limits.WithCusum(new CusumSettings(-0.1, 5)));
        Assert.Throws<ArgumentOutOfRangeException>(() => limits.WithCusum(new CusumSettings(0.5, 0)));
    }

    // λ = 1 is the chart of the readings themselves.
    [Fact]
    public void Ewma_WeightOne_IsTheIndividualsChart()
    {
        double[] drawn = Draws.Normal(9, 3000);
        ControlLimits limits = ControlLimits.Given(ControlChartKind.Individuals, 0, 1);

        Assert.Equal(
            SignalCount.Of(limits, new RunRules { Patterns = ControlSignals.BeyondLimits }, drawn).First.Select(point => point.Index),
            SignalCount.Of(limits.WithEwma(new EwmaSettings(1, 3)), RunRules.All, drawn).First.Select(point => point.Index));
    }

    [Theory]
    [InlineData(0.0, false)]
    [InlineData(0.7, true)]
    public void Autocorrelation_AgreesWithR(double coefficient, bool caution)
    {
        double[] drawn = Draws.Normal(12, 120, 5);
        for (int i = 1; i < drawn.Length; i++)
        {
            drawn[i] += coefficient * (drawn[i - 1] - 5);
        }

        AutocorrelationCheck check = AutocorrelationCheck.Of(drawn, 10)!;

        double[] r = ReferenceR.Ask("reference_control.R", "autocorrelation", drawn, [10]);
        Assert.Equal(r[0], check.FirstLag, 1e-10);
        Assert.Equal(r[1], check.LjungBox, 1e-9);
        Assert.Equal(r[2], check.PValue, 1e-10);
        Assert.Equal(2 / Math.Sqrt(120), check.Bound, 1e-15);
        Assert.Equal(caution, check.CautionOn("limits") is not null);
    }

    [Fact]
    public void Autocorrelation_TooFewOrAlike_IsNotGiven()
    {
        Assert.Null(AutocorrelationCheck.Of([1, 2, 3]));
        Assert.Null(AutocorrelationCheck.Of([1, 1, 1, 1]));
        Assert.Throws<ArgumentOutOfRangeException>(() => AutocorrelationCheck.Of([1, 2, 3, 4], 4));
    }

    [Fact]
    public void State_UnequalSubgroups_HasTheLimitsOfEachSize()
    {
        ControlState state = new(ControlLimits.Given(ControlChartKind.AveragesWithRange, 10, 2, 4), RunRules.LimitsOnly);

        Assert.Equal(13, state.Add(new Subgroup(4, 10, 3, 1)).Limits.Upper, 1e-12);
        Assert.Equal(12, state.Add(new Subgroup(9, 10, 3, 1)).Limits.Upper, 1e-12);
        ControlPoint wide = state.Add(new Subgroup(4, 10, 2 * ChartFactors.Of(4).MeanOfRange * ChartFactors.Of(4).RangeUpperFactor * 1.001, 1));
        Assert.Equal(ControlSignals.SpreadBeyondLimits, wide.Signals);
    }

    private static Subgroup[] Subgroups(double[] readings, int size) =>
        [.. readings.Chunk(size).Select(chunk => Subgroup.Of(chunk))];
}

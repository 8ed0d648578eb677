using ClearView.Optics.Evaluations;
using ClearView.Optics.Tests.Documentation;
using ClearView.Quality.Capability;
using ClearView.Quality.ControlCharts;
using ClearView.Quality.Rolls;
using ClearView.Quality.Specifications;

namespace ClearView.Quality.Tests.Documentation;

/// <summary>Computes the worked examples of the pages on specifications, control charts, capability and rolls.</summary>
public sealed class DecisionExampleTests
{
    private const string Fence = "quality-example";

    [Fact]
    public void Specifications_GuardBand()
    {
        WorkedExample page = WorkedExample.Read("specifications.md", "guard-band", Fence);
        Specification specification = SpecificationCheck.Of(new SpecificationDraft
        {
            Product = "film",
            MethodName = "method",
            Limits = [new LimitDraft("haze") { Upper = page.Given("upper") }],
        }).Specification!;

        LimitJudgement limit = Judge.Of(
            new MeasuredQuantity(Measurands.Haze, page.Given("measured")) { StandardUncertainty = page.Given("u") },
            specification.Limits[0],
            DecisionRule.GuardedByExpandedUncertainty);

        Assert.Equal(Verdict.NeitherProven, limit.Verdict);
        page.Shows("distance", limit.DistanceToLimit!.Value);
        page.Shows("distance_in_U", limit.DistanceInExpandedUncertainties!.Value);
        page.Shows("probability", limit.ProbabilityOfConformity!.Value);
        page.Shows("consumers_risk", limit.ConsumersRisk!.Value);
        page.Shows("producers_risk", limit.ProducersRisk!.Value);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void ControlCharts_Individuals()
    {
        WorkedExample page = WorkedExample.Read("control-charts.md", "individuals", Fence);
        double[] readings = [.. Enumerable.Range(1, 10).Select(i => page.Given(FormattableString.Invariant($"x{i}")))];

        ControlLimits limits = ControlBaseline.OfIndividuals(readings).Limits!;

        page.Shows("centre", limits.Centre);
        page.Shows("sigma", limits.StandardDeviation);
        page.Shows("lower", limits.ForMean(1).Lower);
        page.Shows("upper", limits.ForMean(1).Upper);
        page.Shows("moving_range_upper", limits.ForSpread(1)!.Value.Upper);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void ControlCharts_Cusum()
    {
        WorkedExample page = WorkedExample.Read("control-charts.md", "cusum", Fence);
        ControlState state = new(
            ControlLimits.Given(ControlChartKind.Individuals, page.Given("target"), 1).WithCusum(new CusumSettings(page.Given("k"), page.Given("h"))),
            RunRules.LimitsOnly);

        ControlPoint[] points = [.. new[] { "x1", "x2", "x3" }.Select(name => state.Add(page.Given(name)))];

        page.Shows("sum1", points[0].SumAbove);
        page.Shows("sum2", points[1].SumAbove);
        page.Shows("sum3", points[2].SumAbove);
        Assert.Equal([ControlSignals.None, ControlSignals.SumAboveTarget, ControlSignals.SumAboveTarget], points.Select(point => point.Signals));
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Capability_Indices()
    {
        WorkedExample page = WorkedExample.Read("capability.md", "indices", Fence);
        int n = (int)page.Given("n");
        // Half of the readings on each side of the mean, as far out as gives exactly s.
        double step = page.Given("s") * Math.Sqrt((n - 1.0) / n);

        CapabilityResult result = ProcessCapability.Of(
            [.. Enumerable.Range(0, n).Select(i => page.Given("mean") + (i % 2 == 0 ? step : -step))],
            new CapabilityLimits(page.Given("lower"), page.Given("upper"), page.Given("target")),
            new CapabilityOptions { Model = CapabilityModel.Normal, EvenIfUnstable = true });

        page.Shows("Pp", result.Pp!.Value);
        page.Shows("Ppk", result.Ppk!.Value);
        page.Shows("Ppk_lower", result.Ppk.Lower!.Value);
        page.Shows("Ppk_upper", result.Ppk.Upper!.Value);
        page.Shows("Cpm", result.Cpm!.Value);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Rolls_Variance()
    {
        WorkedExample page = WorkedExample.Read("rolls.md", "variance", Fence);
        RollAccumulator roll = new(new RollGrid(0, 20, 2, 0, 20, 2), null);
        roll.Add(
        [
            new(5, 5, page.Given("lane1_block1")), new(15, 5, page.Given("lane2_block1")),
            new(5, 15, page.Given("lane1_block2")), new(15, 15, page.Given("lane2_block2")),
        ]);

        RollReport report = roll.Report();

        page.Shows("mean", report.Summary.Mean);
        page.Shows("across", report.Variance!.Across);
        page.Shows("along", report.Variance.Along);
        page.Shows("residual", report.Variance.Residual);
        page.HasNoOtherFigures();
    }
}

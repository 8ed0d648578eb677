using ClearView.Quality.Rolls;
using ClearView.Quality.Specifications;
using ClearView.Quality.Tests.ControlCharts;
using ClearView.Quality.Tests.Reference;

using FsCheck.Xunit;

namespace ClearView.Quality.Tests.Rolls;

public sealed class RollReportTests
{
    private const int Lanes = 8;
    private const int Blocks = 12;
    private static readonly RollGrid Grid = new(0, 800, Lanes, 0, 1200, Blocks);

    [Fact]
    public void Report_ByHand_MapAndSummary()
    {
        RollAccumulator roll = new(new RollGrid(0, 20, 2, 0, 20, 2), new RollLimits(1, 5, 0.25));
        roll.Add([new(5, 5, 2), new(5, 6, 4), new(15, 5, 6), new(20, 20, 1), new(20.001, 5, 99), new(5, -0.001, 99)]);

        RollReport report = roll.Report();

        Assert.Equal([(0, 0, 2), (1, 0, 1), (0, 1, 0), (1, 1, 1)], report.Cells.Select(cell => (cell.Lane, cell.Block, cell.Count)));
        Assert.Equal(3, report.Cells[0].Mean, 1e-12);
        Assert.Equal(Math.Sqrt(2), report.Cells[0].StandardDeviation, 1e-12);
        Assert.True(double.IsNaN(report.Cells[2].Mean));
        Assert.Equal(4, report.Summary.Count);
        Assert.Equal(2, report.Summary.CountOffTheGrid);
        Assert.Equal(1, report.Summary.EmptyCells);
        Assert.Equal(3.25, report.Summary.Mean, 1e-12);
        Assert.Equal(new RollReading(20, 20, 1), report.Summary.Smallest);
        Assert.Equal(new RollReading(15, 5, 6), report.Summary.Largest);
        Assert.Equal(0.25, report.Summary.ShareOutsideLimits);
        Assert.Equal(Verdict.Conformity, report.Verdict!.Verdict);
        Assert.Equal("1 of 4 readings (25 %) lie beyond the limits, 25 % may", report.Verdict.Reason);
        Assert.Null(report.Trend);
        Assert.Empty(report.Streaks);
    }

    [Fact]
    public void Report_MoreBeyondThanMay_DoesNotConform()
    {
        RollAccumulator roll = new(Grid, new RollLimits(null, 5, 0.24));
        roll.Add([new(5, 5, 2), new(5, 6, 4), new(15, 5, 6), new(20, 20, 1)]);

        Assert.Equal(Verdict.NonConformity, roll.Report().Verdict!.Verdict);
    }

    [Fact]
    public void Report_NoReadings_IsNotDecided()
    {
        RollReport report = new RollAccumulator(Grid, new RollLimits(null, 5)).Report();

        Assert.Equal(Verdict.NotDecided, report.Verdict!.Verdict);
        Assert.True(double.IsNaN(report.Summary.Mean));
        Assert.Null(report.Variance);
        Assert.Null(report.Trend);
    }

    [Fact]
    public void Report_Trend_AgreesWithR()
    {
        RollReading[] readings = Web(71, perCell: 3, slope: 0.002);
        AlongTrend trend = Report(readings).Trend!;

        double[] means = [.. Enumerable.Range(0, Blocks).Select(block => readings.Where(one => Math.Floor(one.AlongM / 100) == block).Average(one => one.Value))];
        double[] r = ReferenceR.Ask("reference_control.R", "slope", [.. Enumerable.Range(0, Blocks).Select(block => 50.0 + (100 * block))], means);
        Assert.Equal(r[0], trend.SlopePerM, 1e-10);
        Assert.Equal(r[1], trend.SlopeLower, 1e-9);
        Assert.Equal(r[2], trend.SlopeUpper, 1e-9);
        Assert.Equal(r[3], trend.ResidualStandardDeviation, 1e-9);
        Assert.True(trend.IsShown);
    }

    [Fact]
    public void Report_ProfileInterval_AgreesWithR()
    {
        RollReading[] readings = Web(72, perCell: 3);
        ProfileLane lane = Report(readings).CrossProfile[2];

        double[] means =
        [
            .. Enumerable.Range(0, Blocks).Select(block => readings
                .Where(one => Math.Floor(one.AlongM / 100) == block && Math.Floor(one.AcrossMm / 100) == 2)
                .Average(one => one.Value)),
        ];
        double[] r = ReferenceR.Ask("reference_control.R", "lane_interval", means);
        Assert.Equal(r[0], lane.Lower, 1e-9);
        Assert.Equal(r[1], lane.Upper, 1e-9);
        Assert.Equal(means.Average(), lane.Mean, 1e-10);
        Assert.Equal(250, lane.MiddleMm);
    }

    [Fact]
    public void Report_Streak_IsFoundAndAgreesWithR()
    {
        RollReading[] readings = Web(73, perCell: 2, streakLane: 5, streak: 0.8);
        RollReport report = Report(readings);

        StreakLane streak = Assert.Single(report.Streaks, lane => lane.IsStreak);
        double Cell(int lane, int block) => readings
            .Where(one => Math.Floor(one.AlongM / 100) == block && Math.Floor(one.AcrossMm / 100) == lane)
            .Average(one => one.Value);
        double[] differences =
        [
            .. Enumerable.Range(0, Blocks).Select(block =>
                Cell(5, block) - Enumerable.Range(0, Lanes).Where(lane => lane != 5).Select(lane => Cell(lane, block)).Order().ElementAt(3)),
        ];
        double[] r = ReferenceR.Ask("reference_control.R", "streak", differences, [Lanes]);
        Assert.Equal(5, streak.Lane);
        Assert.Equal(r[0], streak.T, 1e-8);
        Assert.Equal(r[1], streak.AdjustedPValue, 1e-12);
        Assert.Equal(0.8, streak.Deviation, 0.15);
    }

    // Level: without a streak, at most about 1 % of rolls show one.
    [Fact]
    public void Report_NoStreak_SeldomShowsOne()
    {
        int rolls = Enumerable.Range(0, 300).Count(seed => Report(Web(seed, perCell: 1)).Streaks.Any(lane => lane.IsStreak));

        Assert.InRange(rolls, 0, 10);
    }

    [Fact]
    public void Report_StreakBelowTheLeastThatMatters_IsNotFlagged()
    {
        RollAccumulator roll = new(Grid, null);
        roll.Add(Web(73, perCell: 2, streakLane: 5, streak: 0.8));

        Assert.DoesNotContain(roll.Report(new RollOptions { LeastStreakDeviation = 2 }).Streaks, lane => lane.IsStreak);
    }

    [Fact]
    public void Report_BalancedVariance_AgreesWithAnalysisOfVarianceInR()
    {
        RollReading[] readings = Web(74, perCell: 2, slope: 0.003, streakLane: 1, streak: 1);

        RollVariance variance = Report(readings).Variance!;

        double[] r = ReferenceR.Ask("reference_control.R", "two_way", LanesOf(readings), BlocksOf(readings), ValuesOf(readings));
        Assert.Equal(r[0], variance.Across, 1e-9);
        Assert.Equal(r[1], variance.Along, 1e-9);
        Assert.Equal(r[2], variance.Residual, 1e-9);
        Assert.Equal(1, variance.AcrossShare + variance.AlongShare + variance.ResidualShare, 1e-12);
    }

    // R: expectations of the quadratic forms from projection matrices, without the formulas used here.
    [Fact]
    public void Report_UnbalancedVariance_AgreesWithR()
    {
        RollReading[] readings = [.. Web(75, perCell: 3, slope: 0.003, streakLane: 1, streak: 1).Where((_, i) => (i * 7919) % 5 is 0 or 3)];

        RollVariance variance = Report(readings).Variance!;

        double[] r = ReferenceR.Ask("reference_control.R", "henderson", LanesOf(readings), BlocksOf(readings), ValuesOf(readings));
        Assert.Equal(r[0], variance.Across, 1e-9);
        Assert.Equal(r[1], variance.Along, 1e-9);
        Assert.Equal(r[2], variance.Residual, 1e-9);
    }

    // Order of the readings: none. Shift: moves the means. Scale: stretches the spreads, the variances by its square.
    [Property(Replay = "(20240420,29)", MaxTest = 30)]
    public void Report_OrderShiftScale(int seed, short shift, byte factor)
    {
        double scale = (factor + 1) / 16.0;
        RollReading[] readings = Web(seed, perCell: 2, streakLane: 3, streak: 0.5);
        RollReading[] moved = [.. readings.Select(one => one with { Value = shift + (scale * one.Value) })];
        new Random(seed).Shuffle(moved);

        RollReport plain = Report(readings);
        RollReport other = Report(moved);

        Assert.Equal(shift + (scale * plain.Summary.Mean), other.Summary.Mean, 1e-8);
        Assert.Equal(scale * plain.Summary.StandardDeviation, other.Summary.StandardDeviation, 1e-6);
        Assert.Equal(scale * scale * plain.Variance!.Residual, other.Variance!.Residual, 1e-6);
        Assert.Equal(scale * plain.Trend!.SlopePerM, other.Trend!.SlopePerM, 1e-9);
        Assert.Equal(plain.Streaks.Select(lane => lane.IsStreak), other.Streaks.Select(lane => lane.IsStreak));
        Assert.Equal(scale * plain.Streaks[3].Deviation, other.Streaks[3].Deviation, 1e-8);
    }

    [Fact]
    public void Covering_HoldsEveryReading()
    {
        RollReading[] readings = Web(76, perCell: 1);
        RollAccumulator roll = new(RollGrid.Covering(readings, 5, 7), null);

        roll.Add(readings);

        Assert.Equal(0, roll.Report().Summary.CountOffTheGrid);
        Assert.Equal(1, RollGrid.Covering([new(3, 4, 1)], 1, 1).AcrossToMm - 3);
        Assert.Throws<ArgumentException>(() => RollGrid.Covering([], 5, 7));
    }

    [Fact]
    public void Input_ThatCannotStand_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new RollGrid(0, 0, 1, 0, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RollGrid(0, 1, 0, 0, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RollGrid(0, 1, 1, 1, 0, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RollGrid(0, 1, 2001, 0, 1, 2000));
        Assert.Throws<ArgumentException>(() => new RollLimits(2, 1));
        Assert.Throws<ArgumentException>(() => new RollLimits(1, 2, 1.01));
        Assert.Throws<ArgumentException>(() => new RollAccumulator(Grid, null).Add([new(1, 1, double.NaN)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RollAccumulator(Grid, null).Report(new RollOptions { StreakLevel = 1 }));
    }

    private static RollReport Report(RollReading[] readings)
    {
        RollAccumulator roll = new(Grid, null);
        roll.Add(readings);
        return roll.Report();
    }

    private static double[] LanesOf(RollReading[] readings) => [.. readings.Select(one => Math.Floor(one.AcrossMm / 100))];

    private static double[] BlocksOf(RollReading[] readings) => [.. readings.Select(one => Math.Floor(one.AlongM / 100))];

    private static double[] ValuesOf(RollReading[] readings) => [.. readings.Select(one => one.Value)];

    private static RollReading[] Web(int seed, int perCell, double slope = 0, int streakLane = -1, double streak = 0)
    {
        double[] noise = Draws.Normal(seed, Lanes * Blocks * perCell, 3, 0.3);
        return
        [
            .. noise.Select((value, i) =>
            {
                int lane = i / perCell % Lanes;
                int block = i / perCell / Lanes;
                double along = (100 * block) + 10 + (80.0 * (i % perCell) / perCell);
                return new RollReading((100 * lane) + 50, along, value + (slope * along) + (lane == streakLane ? streak : 0));
            }),
        ];
    }
}

using ClearView.Contract.Studies;
using ClearView.Contract.Tests.Series;
using ClearView.Quality.Series;
using ClearView.V1;

namespace ClearView.Contract.Tests.Studies;

/// <summary>Maps of rolls from request to answer.</summary>
public class RollStudyTests
{
    // The worked example of docs/methods/rolls.md: lanes 1.5 and 4.5, blocks 2 and 4.
    [Fact]
    public void Map_WorkedExample_KeepsEveryFigure()
    {
        MapRollRequest request = new()
        {
            Given = Placed((5, 1, 1), (15, 1, 3), (5, 2, 2), (15, 2, 6)),
            Limits = new SeriesLimits { Upper = 5 },
            Options = new RollOptions { LargestShareOutsidePercent = 25 },
        };

        RollMap map = Accepted(request);

        Assert.Equal((2u, 2u), (map.LaneCount, map.BlockCount));
        Assert.Equal([1, 3, 2, 6], map.CellMean);
        Assert.Equal([1u, 1u, 1u, 1u], map.CellReadingCount);
        Assert.Equal([1.5, 4.5], map.Lanes.Select(lane => lane.Mean));
        Assert.Equal([5, 15], map.Lanes.Select(lane => lane.MiddleMm));
        Assert.Equal([2ul, 2ul], map.Lanes.Select(lane => lane.ReadingCount));
        Assert.Equal(Math.Sqrt(0.5), map.Lanes[0].StandardDeviation, 1e-12);
        // t(0.975; 1) = 12.7062, tables.
        Assert.Equal(1.5 + (12.7062 * 0.5), map.Lanes[0].Interval.Upper, 1e-4);
        Assert.Equal(4.0, map.Variance.Across, 1e-9);
        Assert.Equal(1.5, map.Variance.Along, 1e-9);
        Assert.Equal(1.0, map.Variance.Residual, 1e-9);
        Assert.Equal(3, map.Mean, 1e-12);
        Assert.Equal(Math.Sqrt(14.0 / 3), map.StandardDeviation, 1e-12);
        Assert.Equal(new PlacedValue { AcrossMm = 5, AlongM = 1, Value = 1 }, map.Smallest);
        Assert.Equal(new PlacedValue { AcrossMm = 15, AlongM = 2, Value = 6 }, map.Largest);
        Assert.Equal((4ul, 0ul, 1ul), (map.ReadingCount, map.UnplacedReadingCount, map.OutsideReadingCount));
        Assert.Equal(VerdictOutcome.Conformity, map.Outcome);
        Assert.Equal("1 of 4 readings (25 %) lie beyond the limits, 25 % may", map.Reason);
        Assert.Null(map.Trend);
        Assert.Equal("", map.StreakTest);
        Assert.All(map.Lanes, lane => Assert.Null(lane.Streak));
    }

    // By hand: 0.01 % per m exactly, from 2 % at the beginning of the web; heads are fixed, so places are the middles of lanes and blocks.
    [Fact]
    public void Map_FixedHeads_GiveTheSlopeItself()
    {
        RollMap map = Accepted(new MapRollRequest { Given = Web((_, along) => 2 + (0.01 * along)) });

        Assert.Equal((8u, 12u), (map.LaneCount, map.BlockCount));
        Assert.Equal([50.0, 150, 250, 350, 450, 550, 650, 750], map.Lanes.Select(lane => lane.MiddleMm));
        Assert.Equal((0.0, 800.0, 0.0, 120.0), (map.AcrossFromMm, map.AcrossToMm, map.AlongFromM, map.AlongToM));
        Assert.Equal(0.01, map.Trend.SlopePerM, 1e-12);
        Assert.Equal(0.01, map.Trend.SlopeInterval.Lower, 1e-9);
        Assert.Equal(2, map.Trend.ValueAtStart, 1e-12);
        Assert.True(map.Trend.Shown);
        Assert.Equal(12, map.Trend.BlockMean.Count);
        Assert.Equal(2.05, map.Trend.BlockMean[0], 1e-12);
        Assert.Equal(3.15, map.Trend.BlockMean[11], 1e-12);
    }

    [Fact]
    public void Map_Streak_IsFlaggedWithItsTestInWords()
    {
        MapRollRequest request = new() { Given = Web((across, along) => (across == 450 ? 2.8 : 2) + (0.01 * Math.Sin(across + (3 * along)))) };
        request.Options = new RollOptions { StreakLevelPercent = 2, LeastStreakDeviation = 0.1 };

        RollMap map = Accepted(request);

        Assert.Equal([false, false, false, false, true, false, false, false], map.Lanes.Select(lane => lane.Streak.Streak));
        Assert.Equal(0.8, map.Lanes[4].Streak.Deviation, 0.02);
        Assert.Equal((12u, 1.0), (map.Lanes[4].Streak.BlockCount, map.Lanes[4].Streak.SameSideFraction));
        Assert.InRange(map.Lanes[4].Streak.AdjustedPValueFraction, 0, 1e-6);
        Assert.Contains("times 8 lanes, at 2 % for all lanes together; deviations below 0.1 % do not count", map.StreakTest, StringComparison.Ordinal);
    }

    [Fact]
    public void Map_ReadingsWithoutAPlace_AreCountedAndLeftOut()
    {
        RollMap map = Accepted(new MapRollRequest { Given = Placed((5, 1, 1), (double.NaN, 1, 99), (15, double.NaN, 99), (15, 2, 3)) });

        Assert.Equal((2ul, 2ul), (map.ReadingCount, map.UnplacedReadingCount));
        Assert.Equal(3, map.Largest.Value);
        Assert.Equal(VerdictOutcome.Unspecified, map.Outcome);
        Assert.Equal("", map.Reason);
        Assert.Null(map.Limits);
        Assert.Equal([1, double.NaN, double.NaN, 3], Accepted(new MapRollRequest
        {
            Given = Placed((5, 1, 1), (15, 2, 3)),
            Options = new RollOptions { LaneCount = 2, BlockCount = 2 },
        }).CellMean);
    }

    [Fact]
    public void Map_NoPlaces_IsAFailedPrecondition()
    {
        StudyOutcome<MapRollResponse> without = RollStudy.Map(new MapRollRequest { Given = GivenExamples.Haze(1, 2, 3) });
        StudyOutcome<MapRollResponse> empty = RollStudy.Map(
            Optics.Evaluations.Measurand.All.Single(measurand => measurand.Id == "haze"), new SeriesColumns(RollStudy.Parts), null, null);

        Assert.False(without.IsAccepted);
        Assert.Empty(without.Violations);
        Assert.Contains("None of the 3 readings has a place", without.FailedPrecondition, StringComparison.Ordinal);
        Assert.Contains("no readings", empty.FailedPrecondition, StringComparison.Ordinal);
    }

    [Fact]
    public void Map_OneReading_IsAMapOfOneCell()
    {
        RollMap map = Accepted(new MapRollRequest { Given = Placed((100, 7, 2.5)) });

        Assert.Equal((1u, 1u, 2.5), (map.LaneCount, map.BlockCount, Assert.Single(map.CellMean)));
        Assert.False(map.HasStandardDeviation);
        Assert.Null(map.Lanes[0].Interval);
        Assert.Null(map.Variance);
    }

    [Fact]
    public void Map_EveryFieldAtFault_IsNamedAtOnce() => Assert.Equal(
        [
            "given.along_m", "limits", "options.lane_count", "options.block_count", "options.least_streak_deviation",
            "options.largest_share_outside_percent", "options.confidence_percent", "options.streak_level_percent",
        ],
        Faults(new MapRollRequest
        {
            Given = new GivenSeries { Measurand = "haze", Value = { 1, 2 }, AlongM = { 1 } },
            Limits = new SeriesLimits { Target = 1 },
            Options = new RollOptions
            {
                LaneCount = 1001,
                BlockCount = 10_001,
                ConfidencePercent = 101,
                StreakLevelPercent = 50,
                LeastStreakDeviation = -1,
                LargestShareOutsidePercent = 100.1,
            },
        }));

    [Fact]
    public void Map_TooManyCells_AreRefused()
    {
        MapRollRequest request = new() { Given = Placed((1, 1, 1)), Options = new RollOptions { LaneCount = 1000, BlockCount = 101 } };
        Assert.Equal(["options.block_count"], Faults(request));

        request.Options.BlockCount = 100;
        Assert.Equal(100_000, Accepted(request).CellMean.Count);
    }

    [Fact]
    public void Map_StoredOrNothing_IsRefusedWithoutAServer()
    {
        Assert.Equal(["stored"], Faults(new MapRollRequest()));
        Assert.Equal(
            ["stored", "specification_name"],
            Faults(new MapRollRequest
            {
                Stored = new StoredSeries { Filter = new SeriesFilter { Measurand = "haze" } },
                SpecificationName = new SpecificationName { Name = "clear-film" },
            }));
    }

    private static GivenSeries Placed(params (double AcrossMm, double AlongM, double Value)[] readings) => new()
    {
        Measurand = "haze",
        Value = { readings.Select(reading => reading.Value) },
        AcrossMm = { readings.Select(reading => reading.AcrossMm) },
        AlongM = { readings.Select(reading => reading.AlongM) },
    };

    // Eight heads 100 mm apart, read every 10 m.
    private static GivenSeries Web(Func<double, double, double> value) => Placed(
    [
        .. from block in Enumerable.Range(0, 12)
           from lane in Enumerable.Range(0, 8)
           let place = (Across: 50.0 + (100 * lane), Along: 5.0 + (10 * block))
           select (place.Across, place.Along, value(place.Across, place.Along)),
    ]);

    private static RollMap Accepted(MapRollRequest request)
    {
        StudyOutcome<MapRollResponse> outcome = RollStudy.Map(request);
        Assert.Empty(outcome.Violations);
        return outcome.Response!.RollMap;
    }

    private static IEnumerable<string> Faults(MapRollRequest request)
    {
        StudyOutcome<MapRollResponse> outcome = RollStudy.Map(request);
        Assert.False(outcome.IsAccepted);
        return outcome.Violations.Select(violation => violation.Field);
    }
}

using System.Globalization;
using ClearView.Contract.Decisions;
using ClearView.Optics.Evaluations;
using ClearView.Quality.Rolls;

namespace ClearView.Contract.Studies;

/// <summary>Writes a roll to the wire.</summary>
internal static class RollWriter
{
    public static V1.RollMap Write(Measurand measurand, V1.SeriesLimits? limits, RollReport report, RollOptions how)
    {
        var wire = new V1.RollMap
        {
            Measurand = measurand.Id,
            Name = measurand.Name,
            Unit = measurand.Unit,
            Limits = limits?.Clone(),
            AcrossFromMm = report.Grid.AcrossFromMm,
            AcrossToMm = report.Grid.AcrossToMm,
            LaneCount = (uint)report.Grid.Lanes,
            AlongFromM = report.Grid.AlongFromM,
            AlongToM = report.Grid.AlongToM,
            BlockCount = (uint)report.Grid.Blocks,
            CellMean = { report.Cells.Select(cell => cell.Mean) },
            CellReadingCount = { report.Cells.Select(cell => (uint)cell.Count) },
            Lanes = { Lanes(report) },
            Trend = report.Trend is { } trend ? Write(trend) : null,
            Variance = report.Variance is { } variance
                ? new V1.RollVariance { Along = variance.Along, Across = variance.Across, Residual = variance.Residual }
                : null,
            ReadingCount = (ulong)report.Summary.Count,
            UnplacedReadingCount = (ulong)report.Summary.CountOffTheGrid,
            Smallest = Write(report.Summary.Smallest),
            Largest = Write(report.Summary.Largest),
            OutsideReadingCount = (ulong)report.Summary.CountOutsideLimits,
            Outcome = report.Verdict is { } verdict ? VerdictWriter.Outcome(verdict.Verdict) : V1.VerdictOutcome.Unspecified,
            Reason = report.Verdict?.Reason ?? "",
            StreakTest = StreakTestInWords(measurand, report, how),
        };
        if (double.IsFinite(report.Summary.Mean))
        {
            wire.Mean = report.Summary.Mean;
        }

        if (double.IsFinite(report.Summary.StandardDeviation))
        {
            wire.StandardDeviation = report.Summary.StandardDeviation;
        }

        return wire;
    }

    private static IEnumerable<V1.LaneProfile> Lanes(RollReport report) => report.CrossProfile.Select(lane =>
    {
        var wire = new V1.LaneProfile
        {
            MiddleMm = lane.MiddleMm,
            ReadingCount = (ulong)lane.Count,
            Interval = double.IsFinite(lane.Lower) ? new V1.ValueInterval { Lower = lane.Lower, Upper = lane.Upper } : null,
            Streak = report.Streaks.IsEmpty ? null : Write(report.Streaks[lane.Lane]),
        };
        if (double.IsFinite(lane.Mean))
        {
            wire.Mean = lane.Mean;
        }

        if (double.IsFinite(lane.StandardDeviation))
        {
            wire.StandardDeviation = lane.StandardDeviation;
        }

        return wire;
    });

    private static V1.StreakFinding? Write(StreakLane streak) => double.IsNaN(streak.AdjustedPValue)
        ? null
        : new V1.StreakFinding
        {
            Streak = streak.IsStreak,
            Deviation = streak.Deviation,
            AdjustedPValueFraction = streak.AdjustedPValue,
            BlockCount = (uint)streak.Blocks,
            SameSideFraction = streak.ShareOfBlocks,
        };

    private static V1.AlongTrend Write(AlongTrend trend) => new()
    {
        SlopePerM = trend.SlopePerM,
        SlopeInterval = new V1.ValueInterval { Lower = trend.SlopeLower, Upper = trend.SlopeUpper },
        ValueAtStart = trend.ValueAtStart,
        Shown = trend.IsShown,
        BlockMean = { trend.BlockMeans },
    };

    private static V1.PlacedValue? Write(RollReading? reading) => reading is { } known
        ? new V1.PlacedValue { AcrossMm = known.AcrossMm, AlongM = known.AlongM, Value = known.Value }
        : null;

    private static string StreakTestInWords(Measurand measurand, RollReport report, RollOptions how)
    {
        if (report.Streaks.All(streak => double.IsNaN(streak.AdjustedPValue)))
        {
            return "";
        }

        string least = how.LeastStreakDeviation > 0
            ? string.Create(CultureInfo.InvariantCulture, $"; deviations below {how.LeastStreakDeviation} {measurand.Unit}").TrimEnd() + " do not count"
            : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"Each lane against the median of the others, block by block: Student's t over the blocks, two-sided, p times {report.Grid.Lanes} lanes, at {how.StreakLevel * 100:0.####} % for all lanes together{least}.");
    }
}

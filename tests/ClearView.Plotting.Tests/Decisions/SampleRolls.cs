using ClearView.V1;

namespace ClearView.Plotting.Tests.Decisions;

/// <summary>Roll maps of invented readings.</summary>
internal static class SampleRolls
{
    /// <summary>A roll with a streak in a lane, and cells without readings.</summary>
    public static RollMap Map(int lanes = 12, int blocks = 40, int streak = 8, bool withEmpty = true, SeriesLimits? limits = null)
    {
        var noise = new Noise(21);
        var map = new RollMap
        {
            Measurand = "haze",
            Name = "Haze",
            Unit = "%",
            Limits = limits,
            AcrossFromMm = 0,
            AcrossToMm = 1800,
            LaneCount = (uint)lanes,
            AlongFromM = 0,
            AlongToM = 6000,
            BlockCount = (uint)blocks,
            ReadingCount = (ulong)(lanes * blocks * 3),
            UnplacedReadingCount = withEmpty ? 4u : 0u,
            Mean = 2.4,
            StandardDeviation = 0.13,
            Variance = blocks > 1 ? new RollVariance { Along = 0.0011, Across = 0.0042, Residual = 0.0108 } : null,
            Outcome = limits is null ? VerdictOutcome.Unspecified : VerdictOutcome.NonConformity,
            Reason = limits is null ? "" : "2.1 % of the readings lie beyond a limit, where none may.",
            StreakTest = "t test of each lane against the median of the others, block by block, at 1 % for all lanes together.",
        };
        double[,] cells = new double[blocks, lanes];
        for (int block = 0; block < blocks; block++)
        {
            for (int lane = 0; lane < lanes; lane++)
            {
                bool empty = withEmpty && ((block is > 14 and < 18 && lane < 4) || (block * lanes) + lane == 77);
                cells[block, lane] = empty ? double.NaN : 2.35 + (0.08 * noise.Next()) + (lane == streak ? 0.3 : 0) + (0.0025 * block) + (0.04 * Math.Sin(lane));
                map.CellMean.Add(cells[block, lane]);
                map.CellReadingCount.Add(empty ? 0u : 3u);
            }
        }

        for (int lane = 0; lane < lanes; lane++)
        {
            double[] means = [.. Enumerable.Range(0, blocks).Select(block => cells[block, lane]).Where(double.IsFinite)];
            var profile = new LaneProfile { MiddleMm = 1800.0 / lanes * (lane + 0.5), ReadingCount = (ulong)(3 * means.Length), Mean = means.Average() };
            if (means.Length > 1)
            {
                profile.StandardDeviation = 0.08;
                profile.Interval = new ValueInterval { Lower = profile.Mean - 0.03, Upper = profile.Mean + 0.03 };
                profile.Streak = new StreakFinding { Streak = lane == streak, Deviation = lane == streak ? 0.3 : 0.01, AdjustedPValueFraction = lane == streak ? 1e-6 : 1 };
            }

            map.Lanes.Add(profile);
        }

        if (blocks > 2)
        {
            map.Trend = new AlongTrend { SlopePerM = 1.7e-5, SlopeInterval = new ValueInterval { Lower = 1.2e-5, Upper = 2.2e-5 }, ValueAtStart = 2.38, Shown = true };
            map.Trend.BlockMean.Add(Enumerable.Range(0, blocks)
                .Select(block => Enumerable.Range(0, lanes).Select(lane => cells[block, lane]).Where(double.IsFinite).DefaultIfEmpty(double.NaN).Average()));
        }

        return map;
    }
}

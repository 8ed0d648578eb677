using System.Collections.Immutable;

using MathNet.Numerics.Distributions;

namespace ClearView.Quality.Rolls;

/// <summary>Finds lanes that deviate persistently.</summary>
/// <remarks>
/// Within each block a lane is compared with the median of the others, so that changes along the web cancel and one streak does
/// not make streaks of the lanes beside it. The differences of the blocks are tested against 0 with Student's t; the level
/// holds for all lanes together (Bonferroni).
/// </remarks>
internal static class StreakTest
{
    private const int LeastLanes = 4;
    private const int LeastBlocks = 5;

    public static ImmutableArray<StreakLane> Of(CellTable table, RollOptions options)
    {
        RollGrid grid = table.Grid;
        if (grid.Lanes < LeastLanes || grid.Blocks < LeastBlocks)
        {
            return [];
        }

        double[,] differences = Differences(table);
        ImmutableArray<StreakLane>.Builder lanes = ImmutableArray.CreateBuilder<StreakLane>(grid.Lanes);
        for (int lane = 0; lane < grid.Lanes; lane++)
        {
            lanes.Add(Of(differences, lane, grid, options));
        }

        return lanes.MoveToImmutable();
    }

    private static StreakLane Of(double[,] differences, int lane, RollGrid grid, RollOptions options)
    {
        int n = 0;
        double mean = 0;
        double squares = 0;
        int above = 0;
        int below = 0;
        for (int block = 0; block < grid.Blocks; block++)
        {
            double difference = differences[block, lane];
            if (!double.IsNaN(difference))
            {
                n++;
                double deviation = difference - mean;
                mean += deviation / n;
                squares += deviation * (difference - mean);
                above += difference > 0 ? 1 : 0;
                below += difference < 0 ? 1 : 0;
            }
        }

        if (n < LeastBlocks)
        {
            return new StreakLane(lane, grid.LaneMiddleMm(lane), n, n > 0 ? mean : double.NaN, double.NaN, double.NaN, double.NaN, false);
        }

        double error = Math.Sqrt(squares / (n - 1) / n);
        double t = mean == 0 ? 0 : mean / error;
        double p = double.IsInfinity(t) ? 0 : Math.Min(1, 2 * grid.Lanes * StudentT.CDF(0, 1, n - 1, -Math.Abs(t)));
        return new StreakLane(
            lane,
            grid.LaneMiddleMm(lane),
            n,
            mean,
            t,
            p,
            (double)(mean >= 0 ? above : below) / n,
            p < options.StreakLevel && Math.Abs(mean) >= options.LeastStreakDeviation);
    }

    private static double[,] Differences(CellTable table)
    {
        RollGrid grid = table.Grid;
        double[,] differences = new double[grid.Blocks, grid.Lanes];
        double[] means = new double[grid.Lanes];
        int[] lanes = new int[grid.Lanes];
        for (int block = 0; block < grid.Blocks; block++)
        {
            int n = 0;
            for (int lane = 0; lane < grid.Lanes; lane++)
            {
                differences[block, lane] = double.NaN;
                if (table.CountOf(lane, block) > 0)
                {
                    means[n] = table.MeanOf(lane, block);
                    lanes[n++] = lane;
                }
            }

            if (n >= LeastLanes)
            {
                Array.Sort(means, lanes, 0, n);
                for (int rank = 0; rank < n; rank++)
                {
                    differences[block, lanes[rank]] = means[rank] - MedianWithout(means, n, rank);
                }
            }
        }

        return differences;
    }

    // Median of n sorted values without the one at a rank.
    private static double MedianWithout(double[] sorted, int n, int rank)
    {
        double At(int place) => sorted[place < rank ? place : place + 1];
        int left = n - 1;
        return left % 2 == 1 ? At(left / 2) : (At((left / 2) - 1) + At(left / 2)) / 2;
    }
}

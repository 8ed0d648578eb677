using System.Collections.Immutable;

using MathNet.Numerics.Distributions;

namespace ClearView.Quality.Rolls;

/// <summary>The trend along the web (MD): a straight line through the means of the blocks.</summary>
/// <param name="Blocks">Number of blocks with readings.</param>
/// <param name="SlopePerM">Slope, in the measurand's unit per m.</param>
/// <param name="SlopeLower">Lower end of its confidence interval.</param>
/// <param name="SlopeUpper">Upper end.</param>
/// <param name="ValueAtStart">The line at the beginning of the grid.</param>
/// <param name="ResidualStandardDeviation">Standard deviation of the block means about the line.</param>
/// <remarks>The mean of a block is that of its cells' means, so that lanes count alike however often they were read.</remarks>
public sealed record AlongTrend(
    int Blocks, double SlopePerM, double SlopeLower, double SlopeUpper, double ValueAtStart, double ResidualStandardDeviation)
{
    /// <summary>Means of the blocks, from the beginning of the grid; NaN for a block without readings.</summary>
    public ImmutableArray<double> BlockMeans { get; init; } = [];

    /// <summary>Whether the interval of the slope leaves out 0.</summary>
    public bool IsShown => SlopeLower > 0 || SlopeUpper < 0;

    internal static AlongTrend? Of(CellTable table, RollOptions options)
    {
        RollGrid grid = table.Grid;
        double origin = (grid.AlongFromM + grid.AlongToM) / 2;
        (int n, double sx, double sy) = (0, 0, 0);
        double[] means = new double[grid.Blocks];
        for (int block = 0; block < grid.Blocks; block++)
        {
            means[block] = BlockMean(table, block);
            if (!double.IsNaN(means[block]))
            {
                n++;
                sx += grid.BlockMiddleM(block) - origin;
                sy += means[block];
            }
        }

        if (n < 3)
        {
            return null;
        }

        (double mx, double my) = (sx / n, sy / n);
        (double xx, double xy, double yy) = (0, 0, 0);
        for (int block = 0; block < grid.Blocks; block++)
        {
            if (!double.IsNaN(means[block]))
            {
                double dx = grid.BlockMiddleM(block) - origin - mx;
                double dy = means[block] - my;
                xx += dx * dx;
                xy += dx * dy;
                yy += dy * dy;
            }
        }

        double slope = xy / xx;
        double residual = Math.Sqrt(Math.Max(0, yy - (slope * xy)) / (n - 2));
        double half = StudentT.InvCDF(0, 1, n - 2, (1 + options.ConfidenceLevel) / 2) * residual / Math.Sqrt(xx);
        return new AlongTrend(
            n, slope, slope - half, slope + half, table.GrandMean + my + (slope * (grid.AlongFromM - origin - mx)), residual)
        {
            BlockMeans = [.. means.Select(mean => table.GrandMean + mean)],
        };
    }

    private static double BlockMean(CellTable table, int block)
    {
        double sum = 0;
        int lanes = 0;
        for (int lane = 0; lane < table.Grid.Lanes; lane++)
        {
            if (table.CountOf(lane, block) > 0)
            {
                sum += table.MeanOf(lane, block);
                lanes++;
            }
        }

        return lanes > 0 ? sum / lanes : double.NaN;
    }
}

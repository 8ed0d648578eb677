using MathNet.Numerics.LinearAlgebra;

namespace ClearView.Quality.Rolls;

/// <summary>Components of variance: along (MD), across (CD), and the residual (Henderson 1953, method 1).</summary>
/// <param name="Along">Variance between blocks, in the square of the measurand's unit; an estimate below 0 is kept as it is.</param>
/// <param name="Across">Variance between lanes; an estimate below 0 is kept as it is.</param>
/// <param name="Residual">Variance of readings beyond both.</param>
/// <remarks>
/// The model is reading = mean + lane + block + residual, all random, with any number of readings per cell. Sums of squares are
/// equated to their expectations; with equal numbers per cell that is the analysis of variance without interaction. An
/// estimate below 0 means that the component cannot be told from 0.
/// </remarks>
public sealed record RollVariance(double Along, double Across, double Residual)
{
    /// <summary>Share of the component along in the total, with estimates below 0 taken as 0; NaN where there is no variance.</summary>
    public double AlongShare => Math.Max(0, Along) / Total;

    /// <summary>Share of the component across.</summary>
    public double AcrossShare => Math.Max(0, Across) / Total;

    /// <summary>Share of the residual.</summary>
    public double ResidualShare => Math.Max(0, Residual) / Total;

    private double Total => Math.Max(0, Along) + Math.Max(0, Across) + Math.Max(0, Residual);

    internal static RollVariance? Of(CellTable table)
    {
        (int lanes, int blocks) = (table.Grid.Lanes, table.Grid.Blocks);
        (double[] laneCounts, double[] laneSums, double[] laneSquares) = (new double[lanes], new double[lanes], new double[lanes]);
        (double[] blockCounts, double[] blockSums, double[] blockSquares) = (new double[blocks], new double[blocks], new double[blocks]);
        for (int block = 0; block < blocks; block++)
        {
            for (int lane = 0; lane < lanes; lane++)
            {
                double n = table.CountOf(lane, block);
                double sum = table.SumOf(lane, block);
                laneCounts[lane] += n;
                laneSums[lane] += sum;
                laneSquares[lane] += n * n;
                blockCounts[block] += n;
                blockSums[block] += sum;
                blockSquares[block] += n * n;
            }
        }

        Side a = Side.Of(laneCounts, laneSums, laneSquares);
        Side b = Side.Of(blockCounts, blockSums, blockSquares);
        double total = table.Count;
        double remaining = total - a.Levels - b.Levels + 1;
        if (a.Levels < 2 || b.Levels < 2 || remaining < 1)
        {
            return null;
        }

        // Expected: SS(lanes), SS(blocks), SS(total) − SS(lanes) − SS(blocks); about the grand mean, T(μ) = 0.
        double across = a.CountSquares / total;
        double along = b.CountSquares / total;
        Matrix<double> expected = Matrix<double>.Build.DenseOfArray(new[,]
        {
            { total - across, a.OtherShare - along, a.Levels - 1 },
            { b.OtherShare - across, total - along, b.Levels - 1 },
            { across - b.OtherShare, along - a.OtherShare, remaining },
        });
        Vector<double> found = Vector<double>.Build.DenseOfArray([a.Squares, b.Squares, table.TotalSquares - a.Squares - b.Squares]);
        Vector<double> solved = expected.Solve(found);
        return double.IsFinite(solved.Sum()) ? new RollVariance(solved[1], solved[0], solved[2]) : null;
    }

    // Sums over the levels of one side that have readings.
    private readonly record struct Side(int Levels, double Squares, double CountSquares, double OtherShare)
    {
        public static Side Of(double[] counts, double[] sums, double[] squares)
        {
            Side side = default;
            for (int i = 0; i < counts.Length; i++)
            {
                if (counts[i] > 0)
                {
                    side = new Side(
                        side.Levels + 1,
                        side.Squares + (sums[i] * sums[i] / counts[i]),
                        side.CountSquares + (counts[i] * counts[i]),
                        side.OtherShare + (squares[i] / counts[i]));
                }
            }

            return side;
        }
    }
}

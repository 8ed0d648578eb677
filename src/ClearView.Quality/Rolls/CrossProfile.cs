using System.Collections.Immutable;

using MathNet.Numerics.Distributions;

namespace ClearView.Quality.Rolls;

/// <summary>Computes the profile across the web, from the means of the cells.</summary>
internal static class CrossProfile
{
    public static ImmutableArray<ProfileLane> Of(CellTable table, RollOptions options)
    {
        ImmutableArray<ProfileLane>.Builder lanes = ImmutableArray.CreateBuilder<ProfileLane>(table.Grid.Lanes);

        // Nearly all lanes have the same number of blocks, and a quantile is a search.
        int knownBlocks = 0;
        double factor = double.NaN;
        for (int lane = 0; lane < table.Grid.Lanes; lane++)
        {
            long count = 0;
            int blocks = 0;
            double mean = 0;
            double squares = 0;
            for (int block = 0; block < table.Grid.Blocks; block++)
            {
                int n = table.CountOf(lane, block);
                if (n > 0)
                {
                    // Welford's update.
                    count += n;
                    blocks++;
                    double deviation = table.MeanOf(lane, block) - mean;
                    mean += deviation / blocks;
                    squares += deviation * (table.MeanOf(lane, block) - mean);
                }
            }

            double centre = blocks > 0 ? table.GrandMean + mean : double.NaN;
            double spread = blocks > 1 ? Math.Sqrt(squares / (blocks - 1)) : double.NaN;
            if (blocks > 1 && blocks != knownBlocks)
            {
                knownBlocks = blocks;
                factor = StudentT.InvCDF(0, 1, blocks - 1, (1 + options.ConfidenceLevel) / 2);
            }

            double half = blocks > 1 ? factor * spread / Math.Sqrt(blocks) : double.NaN;
            lanes.Add(new ProfileLane(lane, table.Grid.LaneMiddleMm(lane), count, centre, spread, centre - half, centre + half));
        }

        return lanes.MoveToImmutable();
    }
}

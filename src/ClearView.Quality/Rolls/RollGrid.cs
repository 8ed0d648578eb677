namespace ClearView.Quality.Rolls;

/// <summary>The division of a web into lanes across (CD) and blocks along (MD).</summary>
/// <remarks>Lanes and blocks are of equal width; the far edge belongs to the last one.</remarks>
public sealed record RollGrid
{
    /// <summary>Most cells of a grid.</summary>
    public const int MostCells = 4_000_000;

    /// <summary>A division.</summary>
    /// <param name="acrossFromMm">One edge of the web, mm.</param>
    /// <param name="acrossToMm">The other edge, mm, above the first.</param>
    /// <param name="lanes">Number of lanes, 1 or more.</param>
    /// <param name="alongFromM">Beginning, m.</param>
    /// <param name="alongToM">End, m, above the beginning.</param>
    /// <param name="blocks">Number of blocks, 1 or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range, or there are more than 4 million cells.</exception>
    public RollGrid(double acrossFromMm, double acrossToMm, int lanes, double alongFromM, double alongToM, int blocks)
    {
        if (!(acrossToMm - acrossFromMm is > 0 and < double.PositiveInfinity))
        {
            throw new ArgumentOutOfRangeException(nameof(acrossToMm), acrossToMm, "expected a finite position above the first edge.");
        }

        if (!(alongToM - alongFromM is > 0 and < double.PositiveInfinity))
        {
            throw new ArgumentOutOfRangeException(nameof(alongToM), alongToM, "expected a finite position above the beginning.");
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(lanes, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(blocks, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan((long)lanes * blocks, MostCells);
        AcrossFromMm = acrossFromMm;
        AcrossToMm = acrossToMm;
        Lanes = lanes;
        AlongFromM = alongFromM;
        AlongToM = alongToM;
        Blocks = blocks;
    }

    /// <summary>One edge of the web, mm.</summary>
    public double AcrossFromMm { get; }

    /// <summary>The other edge, mm.</summary>
    public double AcrossToMm { get; }

    /// <summary>Number of lanes across.</summary>
    public int Lanes { get; }

    /// <summary>Beginning, m.</summary>
    public double AlongFromM { get; }

    /// <summary>End, m.</summary>
    public double AlongToM { get; }

    /// <summary>Number of blocks along.</summary>
    public int Blocks { get; }

    /// <summary>The smallest division that holds every reading.</summary>
    /// <param name="readings">The readings, one or more, at finite places.</param>
    /// <param name="lanes">Number of lanes.</param>
    /// <param name="blocks">Number of blocks.</param>
    /// <exception cref="ArgumentException">There is no reading, or a place is not finite.</exception>
    public static RollGrid Covering(ReadOnlySpan<RollReading> readings, int lanes, int blocks)
    {
        if (readings.IsEmpty)
        {
            throw new ArgumentException("A grid needs one reading or more.", nameof(readings));
        }

        (double left, double right, double start, double end) = (double.PositiveInfinity, double.NegativeInfinity, double.PositiveInfinity, double.NegativeInfinity);
        foreach (ref readonly RollReading one in readings)
        {
            if (!double.IsFinite(one.AcrossMm) || !double.IsFinite(one.AlongM))
            {
                throw new ArgumentException("the place of a reading is not finite.", nameof(readings));
            }

            left = Math.Min(left, one.AcrossMm);
            right = Math.Max(right, one.AcrossMm);
            start = Math.Min(start, one.AlongM);
            end = Math.Max(end, one.AlongM);
        }

        // All in one line: one unit to each side, so that there is a width.
        (left, right) = right > left ? (left, right) : (left - 1, right + 1);
        (start, end) = end > start ? (start, end) : (start - 1, end + 1);
        return new RollGrid(left, right, lanes, start, end, blocks);
    }

    /// <summary>Middle of a lane, mm.</summary>
    /// <param name="lane">Lane, from 0.</param>
    public double LaneMiddleMm(int lane) => AcrossFromMm + ((lane + 0.5) * (AcrossToMm - AcrossFromMm) / Lanes);

    /// <summary>Middle of a block, m.</summary>
    /// <param name="block">Block, from 0.</param>
    public double BlockMiddleM(int block) => AlongFromM + ((block + 0.5) * (AlongToM - AlongFromM) / Blocks);

    // −1 outside the web.
    internal int CellOf(double acrossMm, double alongM)
    {
        int lane = Bin(acrossMm, AcrossFromMm, AcrossToMm, Lanes);
        int block = Bin(alongM, AlongFromM, AlongToM, Blocks);
        return lane < 0 || block < 0 ? -1 : (block * Lanes) + lane;
    }

    private static int Bin(double position, double from, double to, int bins)
    {
        double place = (position - from) / (to - from) * bins;
        return !(place >= 0) || position > to ? -1 : Math.Min((int)place, bins - 1);
    }
}

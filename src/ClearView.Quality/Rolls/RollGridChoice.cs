namespace ClearView.Quality.Rolls;

/// <summary>Chooses a division of the web that suits the places of the readings.</summary>
/// <remarks>
/// Common practice, no source. Where the readings have no more places than lanes (or blocks), as from fixed heads, the outermost
/// places become the middles of the outermost lanes, so that no lane sits beside its place; else the web ends at them.
/// </remarks>
public static class RollGridChoice
{
    /// <summary>Most lanes that are chosen.</summary>
    public const int MostLanes = 24;

    /// <summary>Most blocks that are chosen.</summary>
    public const int MostBlocks = 60;

    /// <summary>Most cells that are chosen.</summary>
    public const int MostCells = 100_000;

    /// <summary>The division for readings at places.</summary>
    /// <param name="acrossMm">Places across, mm; a reading without a finite place on both sides is passed over.</param>
    /// <param name="alongM">Places along, m, as many.</param>
    /// <param name="lanes">Number of lanes; 0 takes the number of places across where that is 24 at most, else √n for n readings, 24 at most.</param>
    /// <param name="blocks">Number of blocks; 0 takes the number of places along, or of readings per lane, or 60, whichever is least.</param>
    /// <returns><see langword="null"/> where no reading has a place.</returns>
    /// <exception cref="ArgumentException">The columns differ in length.</exception>
    public static RollGrid? For(ReadOnlySpan<double> acrossMm, ReadOnlySpan<double> alongM, int lanes = 0, int blocks = 0)
    {
        if (acrossMm.Length != alongM.Length)
        {
            throw new ArgumentException($"There were {acrossMm.Length} places across and {alongM.Length} along.", nameof(alongM));
        }

        var across = new Places(lanes > 0 ? lanes : MostLanes);
        var along = new Places(blocks > 0 ? blocks : MostBlocks);
        int count = 0;
        for (int i = 0; i < acrossMm.Length; i++)
        {
            if (double.IsFinite(acrossMm[i]) && double.IsFinite(alongM[i]))
            {
                across.Add(acrossMm[i]);
                along.Add(alongM[i]);
                count++;
            }
        }

        if (count == 0)
        {
            return null;
        }

        if (lanes <= 0)
        {
            lanes = across.HasFew ? across.Count : Math.Min(MostLanes, Math.Max(1, (int)Math.Sqrt(count)));
            lanes = Math.Clamp(lanes, 1, MostCells / Math.Max(1, blocks));
        }

        if (blocks <= 0)
        {
            blocks = Math.Min(along.HasFew ? along.Count : MostBlocks, Math.Max(1, count / lanes));
        }

        (double left, double right) = across.Covered(lanes);
        (double start, double end) = along.Covered(blocks);
        return new RollGrid(left, right, lanes, start, end, blocks);
    }

    // Places on one side of the web, counted as far as matters.
    private sealed class Places(int most)
    {
        private readonly HashSet<double> _different = [];
        private double _least = double.PositiveInfinity;
        private double _greatest = double.NegativeInfinity;
        private double _last = double.NaN;

        public int Count => _different.Count;

        public bool HasFew => _different.Count <= most;

        public void Add(double place)
        {
            _least = Math.Min(_least, place);
            _greatest = Math.Max(_greatest, place);
            if (place != _last && HasFew)
            {
                _different.Add(place);
                _last = place;
            }
        }

        public (double From, double To) Covered(int parts)
        {
            if (_least == _greatest)
            {
                // All in one line: one unit to each side, so that there is a width.
                return (_least - 1, _greatest + 1);
            }

            double half = parts > 1 && Count <= parts ? (_greatest - _least) / (parts - 1) / 2 : 0;
            return (_least - half, _greatest + half);
        }
    }
}

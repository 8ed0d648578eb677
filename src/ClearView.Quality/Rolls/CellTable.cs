using System.Collections.Immutable;

namespace ClearView.Quality.Rolls;

/// <summary>The sums of all cells, about the grand mean.</summary>
internal sealed class CellTable
{
    private readonly int[] _counts;
    private readonly double[] _sums;
    private readonly double[] _deviations;

    public CellTable(RollGrid grid, CellSums[] cells, double origin)
    {
        Grid = grid;
        double sum = 0;
        foreach (CellSums cell in cells)
        {
            Count += cell.Count;
            sum += cell.Sum;
            EmptyCells += cell.Count == 0 ? 1 : 0;
        }

        double shift = sum / Count;
        GrandMean = Count > 0 ? origin + shift : double.NaN;
        _counts = new int[cells.Length];
        _sums = new double[cells.Length];
        _deviations = new double[cells.Length];
        for (int i = 0; i < cells.Length; i++)
        {
            int n = cells[i].Count;
            if (n == 0)
            {
                _deviations[i] = double.NaN;
                continue;
            }

            double about = cells[i].Sum - (n * shift);
            double within = Math.Max(0, cells[i].Squares - (cells[i].Sum * cells[i].Sum / n));
            _counts[i] = n;
            _sums[i] = about;
            TotalSquares += within + (about * about / n);
            _deviations[i] = n > 1 ? Math.Sqrt(within / (n - 1)) : double.NaN;
        }
    }

    public RollGrid Grid { get; }

    public long Count { get; }

    public int EmptyCells { get; }

    public double GrandMean { get; }

    /// <summary>Sum of squares of all readings about the grand mean.</summary>
    public double TotalSquares { get; }

    public int CountOf(int lane, int block) => _counts[(block * Grid.Lanes) + lane];

    /// <summary>Sum of deviations from the grand mean.</summary>
    public double SumOf(int lane, int block) => _sums[(block * Grid.Lanes) + lane];

    /// <summary>Mean deviation from the grand mean; NaN for an empty cell.</summary>
    public double MeanOf(int lane, int block)
    {
        int i = (block * Grid.Lanes) + lane;
        return _counts[i] > 0 ? _sums[i] / _counts[i] : double.NaN;
    }

    public ImmutableArray<RollCell> Cells()
    {
        ImmutableArray<RollCell>.Builder cells = ImmutableArray.CreateBuilder<RollCell>(_counts.Length);
        for (int block = 0; block < Grid.Blocks; block++)
        {
            for (int lane = 0; lane < Grid.Lanes; lane++)
            {
                int i = (block * Grid.Lanes) + lane;
                cells.Add(new RollCell(lane, block, _counts[i], GrandMean + MeanOf(lane, block), _deviations[i]));
            }
        }

        return cells.MoveToImmutable();
    }
}

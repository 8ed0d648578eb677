using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>The cells of a roll map with their places and the ends of their colour scale.</summary>
/// <param name="Filled">Cells with readings: where each lies, and its mean.</param>
/// <param name="Empty">Cells without readings.</param>
/// <param name="Low">Lower end of the colour scale, in the measurand's unit.</param>
/// <param name="High">Upper end of the colour scale, in the measurand's unit.</param>
internal sealed record RollCells((BarModel Area, double Mean)[] Filled, BarModel[] Empty, double Low, double High)
{
    private const double LeastSpanShare = 0.001;
    private const double LimitShare = 0.5;

    public static RollCells Of(RollMap map)
    {
        (int lanes, int blocks) = ((int)map.LaneCount, (int)map.BlockCount);
        if (lanes == 0 || blocks == 0 || map.CellMean.Count != (long)lanes * blocks)
        {
            throw new ChartRefusedException($"The map has {map.CellMean.Count} cells where {lanes} lanes and {blocks} blocks have {(long)lanes * blocks}.");
        }

        double width = (map.AcrossToMm - map.AcrossFromMm) / lanes;
        double length = (map.AlongToM - map.AlongFromM) / blocks;
        (BarModel Area, double Mean)[] all =
        [
            .. map.CellMean.Select((mean, i) => (
                new BarModel(
                    map.AlongFromM + (i / lanes * length),
                    map.AlongFromM + (((i / lanes) + 1) * length),
                    map.AcrossFromMm + (i % lanes * width),
                    map.AcrossFromMm + (((i % lanes) + 1) * width)),
                mean)),
        ];
        (BarModel Area, double Mean)[] filled = [.. all.Where(cell => double.IsFinite(cell.Mean))];
        if (filled.Length == 0)
        {
            throw new ChartRefusedException("No cell of the map has a reading.");
        }

        (double low, double high) = Scale(filled, map.Limits);
        return new RollCells(filled, [.. all.Where(cell => !double.IsFinite(cell.Mean)).Select(cell => cell.Area)], low, high);
    }

    public double Fraction(double value) => (value - Low) / (High - Low);

    /// <summary>From the smallest to the greatest mean; a limit close by is taken in, so that its distance can be seen.</summary>
    private static (double Low, double High) Scale((BarModel Area, double Mean)[] filled, SeriesLimits? limits)
    {
        double low = filled.Min(cell => cell.Mean);
        double high = filled.Max(cell => cell.Mean);
        double missing = Math.Max(0, (LeastSpanShare * Math.Max(Math.Abs(high), 1e-3)) - (high - low));
        (low, high) = (low - (missing / 2), high + (missing / 2));
        double near = LimitShare * (high - low);
        double[] close = [.. LimitLines.Of(limits, "").Select(line => line.Value).Where(value => value > low - near && value < high + near)];
        return (close.Append(low).Min(), close.Append(high).Max());
    }
}

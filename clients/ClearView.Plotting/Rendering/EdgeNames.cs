using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using ScottPlot;

using SkiaSharp;

namespace ClearView.Plotting.Rendering;

/// <summary>Words at the upper and the right edge of a panel, so placed that none covers another.</summary>
internal static class EdgeNames
{
    public const float RightGapPt = 12;
    public const float RowPt = 15;

    private const float BetweenPt = 10;
    private const float RisePt = 5;
    private const float EdgePt = 4;
    private const float LeftRoomPt = 40;
    private const float SettledPt = 1;

    private static readonly SeriesLook LeaderLook = new(LineKind.Solid, MarkKind.None, Ink.Grey) { LineWidth = 0.7 };

    /// <summary>Room that words above a panel take, points; 0 for none.</summary>
    public static float TopRoom(PanelModel panel, float dataWidth) =>
        panel.TopNames.IsEmpty ? 0 : (Rows(panel, 0, dataWidth).Max(place => place.Row + 1) * RowPt) + RisePt;

    public static void Draw(SKCanvas canvas, PanelModel panel, PixelRect data)
    {
        var text = new TextPainter(canvas);
        foreach ((AxisTick name, float x, float left, int row) in Rows(panel, data.Left, data.Width))
        {
            float baseline = data.Top - RisePt - (row * RowPt);
            StrokePainter.Stroke(canvas, [new Pixel(x, data.Top), new Pixel(x, baseline + 2)], LeaderLook);
            text.Draw(name.Label, left, baseline, ReportTheme.TickLabelPt, ReportTheme.Text);
        }

        AxisTick[] names = [.. panel.RightNames.OrderByDescending(name => name.Value)];
        float[] wanted = [.. names.Select(name => data.Bottom - ((float)Share(name.Value, panel.Y) * data.Height))];
        float[] placed = Spread(wanted, RowPt, data.Top, data.Bottom);
        for (int i = 0; i < names.Length; i++)
        {
            if (Math.Abs(placed[i] - wanted[i]) > SettledPt)
            {
                StrokePainter.Stroke(canvas, [new Pixel(data.Right, wanted[i]), new Pixel(data.Right + RightGapPt - 3, placed[i])], LeaderLook);
            }

            text.Draw(names[i].Label, data.Right + RightGapPt - EdgePt, placed[i] + (ReportTheme.TickLabelPt * 0.36f), ReportTheme.TickLabelPt, ReportTheme.Text);
        }
    }

    /// <summary>Moves places apart until neighbours are at least <paramref name="gap"/> from one another, each as little as may be.</summary>
    /// <param name="wanted">Where each should be, ascending.</param>
    /// <param name="gap">Least distance.</param>
    /// <param name="from">Lowest place.</param>
    /// <param name="to">Highest place; given up where there are too many.</param>
    internal static float[] Spread(float[] wanted, float gap, float from, float to)
    {
        float[] placed = [.. wanted];
        for (int start = 0; start < placed.Length;)
        {
            // A block of places that touch is centred on the mean of where they should be.
            int end = start + 1;
            float first = placed[start];
            while (end < placed.Length && wanted[end] < first + ((end - start) * gap))
            {
                end++;
                int count = end - start;
                float mean = wanted.Skip(start).Take(count).Average();
                first = mean - ((count - 1) * gap / 2);
            }

            first = Math.Max(from, Math.Min(first, to - ((end - start - 1) * gap)));
            if (start > 0 && first < placed[start - 1] + gap)
            {
                first = placed[start - 1] + gap;
            }

            for (int i = start; i < end; i++)
            {
                placed[i] = first + ((i - start) * gap);
            }

            start = end;
        }

        return placed;
    }

    /// <summary>Names centred on their values where no line to one crosses another; else each ends at its value.</summary>
    private static List<(AxisTick Name, float X, float Left, int Row)> Rows(PanelModel panel, float dataLeft, float dataWidth)
    {
        List<(AxisTick Name, float X, float Left, int Row)> centred = Rows(panel, dataLeft, dataWidth, 0.5f);
        return centred.Any(place => centred.Any(other => Crosses(place, other))) ? Rows(panel, dataLeft, dataWidth, 1) : centred;
    }

    /// <summary>Whether the line to a name runs through another that stands lower.</summary>
    private static bool Crosses((AxisTick Name, float X, float Left, int Row) place, (AxisTick Name, float X, float Left, int Row) other) =>
        other.Row < place.Row && place.X > other.Left - EdgePt
        && place.X < other.Left + TextPainter.Measure(other.Name.Label, ReportTheme.TickLabelPt) + EdgePt;

    private static List<(AxisTick Name, float X, float Left, int Row)> Rows(PanelModel panel, float dataLeft, float dataWidth, float shareBefore)
    {
        var places = new List<(AxisTick Name, float X, float Left, int Row)>();
        var ends = new List<float>();
        foreach (AxisTick name in panel.TopNames.OrderBy(name => name.Value))
        {
            float x = dataLeft + ((float)Share(name.Value, panel.X) * dataWidth);
            float width = TextPainter.Measure(name.Label, ReportTheme.TickLabelPt);
            float left = Math.Max(dataLeft - LeftRoomPt, Math.Min(x - (width * shareBefore) + (shareBefore < 1 ? 0 : EdgePt), dataLeft + dataWidth - width + EdgePt));
            int row = ends.FindIndex(end => end + BetweenPt <= left);
            if (row < 0)
            {
                row = ends.Count;
                ends.Add(0);
            }

            ends[row] = left + width;
            places.Add((name, x, left, row));
        }

        return places;
    }

    private static double Share(double value, AxisModel axis) => Math.Clamp((value - axis.Minimum) / (axis.Maximum - axis.Minimum), 0, 1);
}

using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using ScottPlot;

using SkiaSharp;

namespace ClearView.Plotting.Rendering;

/// <summary>The legend: one sample of line and mark before each name, in rows above the panels.</summary>
internal sealed class LegendPainter
{
    private const float SampleWidth = 34;
    private const float MarkOnlyWidth = 14;
    private const float SwatchHeight = 10;
    private const float Gap = 6;
    private const float Between = 18;

    private readonly List<(SeriesModel Series, float X, int Row)> _places = [];

    public LegendPainter(IEnumerable<SeriesModel> series, float width)
    {
        float x = 0;
        int row = 0;
        foreach (SeriesModel one in series)
        {
            float needed = Sample(one) + Gap + TextPainter.Measure(one.Label, ReportTheme.LegendPt);
            if (x > 0 && x + needed > width)
            {
                x = 0;
                row++;
            }

            _places.Add((one, x, row));
            x += needed + Between;
        }

        Rows = _places.Count == 0 ? 0 : row + 1;
    }

    public int Rows { get; }

    public float Height => Rows * TextPainter.LineHeight(ReportTheme.LegendPt);

    public void Draw(SKCanvas canvas, float left, float top)
    {
        var text = new TextPainter(canvas);
        using Paint paint = Paint.NewDisposablePaint();
        foreach ((SeriesModel series, float x, int row) in _places)
        {
            float baseline = top + (row * TextPainter.LineHeight(ReportTheme.LegendPt)) + ReportTheme.LegendPt;
            float middle = baseline - (ReportTheme.LegendPt * 0.36f);
            float start = left + x;
            float width = Sample(series);
            DrawSample(canvas, series, start, middle, width);

            if (series.Look.Mark != MarkKind.None)
            {
                Styles.Marker(series.Look).Render(canvas, new Pixel(start + (width / 2), middle), paint);
            }

            text.Draw(series.Label, start + width + Gap, baseline, ReportTheme.LegendPt, ReportTheme.Text);
        }
    }

    private static void DrawSample(SKCanvas canvas, SeriesModel series, float start, float middle, float width)
    {
        if (series.Look.Fill != FillKind.None)
        {
            AreaPainter.Rectangle(
                canvas, new SKRect(start, middle - (SwatchHeight / 2), start + width, middle + (SwatchHeight / 2)), series.Look);
        }
        else if (!series.Whiskers.IsEmpty)
        {
            WhiskerPlot.Draw(
                canvas,
                new Pixel(start + (width / 2), middle + (SwatchHeight / 2)),
                new Pixel(start + (width / 2), middle - (SwatchHeight / 2)),
                series.Look);
        }
        else
        {
            StrokePainter.Stroke(canvas, [new Pixel(start, middle), new Pixel(start + width, middle)], series.Look);
        }
    }

    private static float Sample(SeriesModel series) => series.Look is { Line: LineKind.None, Fill: FillKind.None } || !series.Whiskers.IsEmpty ? MarkOnlyWidth : SampleWidth;
}

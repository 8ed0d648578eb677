using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;
using ClearView.Plotting.Theme;

using SkiaSharp;

namespace ClearView.Plotting.Tests.Rendering;

public sealed class StrokePainterTests
{
    [Fact]
    public void Cut_StraightLine_LeavesDashesOfThePattern()
    {
        using var path = new SKPath();
        path.MoveTo(0, 0);
        path.LineTo(26, 0);

        using SKPath dashes = StrokePainter.Cut(path, [9, 4]);

        // By hand: drawn 0-9 and 13-22, skipped 9-13 and 22-26.
        Assert.Equal([0, 9, 13, 22], dashes.Points.Select(point => point.X));
    }

    [Fact]
    public void Cut_AroundACorner_KeepsTheDrawnLength()
    {
        using var path = new SKPath();
        path.MoveTo(0, 0);
        path.LineTo(5, 0);
        path.LineTo(5, 5);

        using SKPath dashes = StrokePainter.Cut(path, [8, 100]);
        using var measure = new SKPathMeasure(dashes);

        Assert.Equal(8, measure.Length, 3);
    }

    [Fact]
    public void Dashes_EveryPattern_DiffersFromTheOthers()
    {
        LineKind[] drawn = [.. Enum.GetValues<LineKind>().Where(kind => kind != LineKind.None)];

        Assert.Equal(drawn.Length, drawn.Select(kind => string.Join(",", ReportTheme.Dashes(kind))).Distinct().Count());
    }
}

using System.Collections.Immutable;

using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;

namespace ClearView.Plotting.Tests.Rendering;

public sealed class SeriesPlotTests
{
    [Fact]
    public void Runs_NotANumber_InterruptsTheLine() =>
        Assert.Equal([2, 3], Lengths(1, 2, double.NaN, 3, double.PositiveInfinity, 4, 5, 6, double.NaN));

    [Fact]
    public void Runs_OnlyGaps_IsEmpty() => Assert.Empty(Lengths(double.NaN, double.NaN));

    [Fact]
    public void Runs_NoGap_IsOneLine() => Assert.Equal([3], Lengths(1, 2, 3));

    private static int[] Lengths(params double[] values)
    {
        var series = new SeriesModel
        {
            Label = "line",
            Look = new SeriesLook(LineKind.Solid, MarkKind.None, Ink.Black),
            Points = [.. values.Select((value, index) => new ChartPoint(index, value)).ToImmutableArray()],
        };
        return [.. SeriesPlot.Runs(series).Select(run => run.Length)];
    }
}

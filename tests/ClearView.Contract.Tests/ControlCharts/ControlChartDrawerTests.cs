using System.Diagnostics;

using ClearView.Contract.ControlCharts;
using ClearView.Quality.Series;
using ClearView.V1;

namespace ClearView.Contract.Tests.ControlCharts;

public sealed class ControlChartDrawerTests(ITestOutputHelper output)
{
    private const int Year = 3_000_000;

    [Fact]
    public void Draw_NothingStored_GivesTheSummaryOnly()
    {
        DrawnControlChart only = Assert.Single(Draw(ChartExamples.Individuals(), []));

        Assert.Equal(0ul, only.Summary.PointCount);
        Assert.Equal(("Haze", "%"), (only.Summary.Name, only.Summary.Unit));
        Assert.False(only.Summary.HasAutocorrelation);
    }

    [Fact]
    public void Draw_PointsInParts_InOrderAndComplete()
    {
        DrawnControlChart[] parts = Draw(ChartExamples.Individuals(), [.. ChartExamples.Normal(1, 1203).Select((value, i) => (i, (long)i, value))]);

        Assert.Equal([0, 500, 500, 203], parts.Select(part => part.Points.Count));
        Assert.Equal(Enumerable.Range(0, 1203).Select(i => (ulong)i), parts.SelectMany(part => part.Points).Select(point => point.PositionCount));
        Assert.All(parts[1..], part => Assert.Null(part.Summary));
    }

    // A late reading: one measured after it was recorded before it. By hand: the second and the fourth of six.
    [Fact]
    public void Draw_LateReadings_AreCountedAndMarked()
    {
        DrawnControlChart[] parts = Draw(ChartExamples.Individuals(), [(0, 1, 0), (1, 4, 0), (2, 2, 0), (3, 9, 0), (4, 7, 0), (5, 10, 0)]);

        Assert.Equal(2ul, parts[0].Summary.LateReadingCount);
        Assert.Equal(ChartExamples.At(1), parts[0].Summary.RevisedFrom);
        Assert.Equal([1ul, 3], parts[1].Points.Where(point => point.Late).Select(point => point.PositionCount));
    }

    [Fact]
    public void Draw_NoLateReading_SaysNothingOfRevision()
    {
        DrawnControlChart[] parts = Draw(ChartExamples.Individuals(), [(0, 5, 0), (1, 6, 0), (1, 7, 0)]);

        Assert.Equal(0ul, parts[0].Summary.LateReadingCount);
        Assert.Null(parts[0].Summary.RevisedFrom);
    }

    // What a stretch shows is what the whole chart shows there, signals of runs that began before it among them.
    [Theory]
    [InlineData(0)]
    [InlineData(7)]
    public void Draw_Span_IsTheSameStretchOfTheWholeChart(int size)
    {
        ControlChart chart = size == 0 ? ChartExamples.Individuals() : ChartExamples.Averages((uint)size);
        chart.Phases.Add(new ControlPhase { Name = "later", MeasuredFrom = ChartExamples.At(100), Limits = ChartExamples.Known(0.5) });
        (int, long, double)[] readings = [.. ChartExamples.Normal(21, 500).Select((value, i) => (i, (long)(i % 50 == 0 ? i + 70 : i), value + (i < 195 ? 0.5 : 1.7)))];
        MeasuredSpan span = new() { MeasuredFrom = ChartExamples.At(203), MeasuredBefore = ChartExamples.At(300) };

        DrawnControlChart[] whole = Draw(chart, readings);
        DrawnControlChart[] part = Draw(chart, readings, span);

        ControlChartPoint[] expected = [.. Points(whole).Where(point => point.MeasuredAt.CompareTo(ChartExamples.At(203)) >= 0 && point.MeasuredAt.CompareTo(ChartExamples.At(300)) < 0)];
        Assert.Contains(expected, point => point.Patterns.Count > 0);
        Assert.Equal(expected.Select(Unplaced), Points(part).Select(Unplaced));
        Assert.Equal(97ul, part[0].Summary.ReadingCount);
        Assert.Equal(1ul, part[0].Summary.LateReadingCount);
        Assert.Equal((ulong)expected.Length, part[0].Summary.PointCount);

        // Nothing before the phase counts: reading from its beginning on gives the same.
        Assert.Equal(ChartExamples.At(100), ControlChartReader.BeginningFor(chart, span));
        Assert.Equal(part, Draw(chart, readings[100..], span));
    }

    [Fact]
    public void BeginningFor_FirstPhaseOrAllTime_IsThatOfTheSeries()
    {
        ControlChart chart = ChartExamples.Individuals();
        chart.Phases.Add(new ControlPhase { Name = "later", MeasuredFrom = ChartExamples.At(100), Limits = ChartExamples.Known() });

        Assert.Null(ControlChartReader.BeginningFor(chart, null));
        Assert.Null(ControlChartReader.BeginningFor(chart, new MeasuredSpan { MeasuredFrom = ChartExamples.At(99) }));
        Assert.Equal(ChartExamples.At(100), ControlChartReader.BeginningFor(chart, new MeasuredSpan { MeasuredFrom = ChartExamples.At(100) }));
    }

    [Theory]
    [InlineData(ControlChartKind.Individuals)]
    [InlineData(ControlChartKind.Ewma)]
    [InlineData(ControlChartKind.Cusum)]
    public void Draw_MorePointsThanWanted_StretchesStandForThem(ControlChartKind kind)
    {
        ControlChart chart = ChartExamples.Individuals();
        chart.Kind = kind;
        chart.Phases.Add(new ControlPhase { Name = "later", MeasuredFrom = ChartExamples.At(3333), Limits = ChartExamples.Known(0.1) });
        (int, long, double)[] readings = [.. ChartExamples.Normal(4, 7000).Select((value, i) => (i, (long)i, value))];

        DrawnControlChart[] full = Draw(chart, readings, most: 7000);
        DrawnControlChart[] thin = Draw(chart, readings, most: 6999);

        Assert.False(full[0].Summary.Thinned);
        Assert.True(thin[0].Summary.Thinned);
        ControlChartPoint[] points = Points(full);
        ControlChartStretch[] stretches = [.. thin.SelectMany(part => part.Stretches)];
        Assert.Equal(1001, stretches.Length);
        int next = 0;
        foreach (ControlChartStretch stretch in stretches)
        {
            ControlChartPoint[] own = points[next..(next + (int)stretch.PointCount)];
            next += own.Length;
            Assert.All(own, point => Assert.Equal(stretch.PhaseCount, point.PhaseCount));
            Assert.Equal((own[0].MeasuredAt, own[^1].MeasuredAt), (stretch.MeasuredFrom, stretch.MeasuredTo));
            Assert.Equal(kind == ControlChartKind.Cusum ? -own.Max(point => point.SumBelow) : own.Min(point => point.Plotted), stretch.Minimum);
            Assert.Equal(kind == ControlChartKind.Cusum ? own.Max(point => point.SumAbove) : own.Max(point => point.Plotted), stretch.Maximum);
            Assert.Equal(kind == ControlChartKind.Cusum ? 0 : own.Average(point => point.Plotted), stretch.Mean, 1e-12);
            Assert.Equal((own.Min(point => point.Lower), own.Max(point => point.Upper)), (stretch.Lower, stretch.Upper));
            Assert.Equal((ulong)own.Count(point => point.Patterns.Count > 0), stretch.SignalPointCount);
        }

        Assert.Equal(points.Length, next);
        Assert.Equal(points.Where(point => point.Patterns.Count > 0).Take(1000), Points(thin));
        Assert.Equal(full[0].Summary.SignalPointCount, thin[0].Summary.SignalPointCount);
        Assert.All(thin, part => Assert.InRange(part.Points.Count + part.Stretches.Count, 0, 1000));
    }

    [Fact]
    public void Draw_Autocorrelation_IsNotThatOfPhases()
    {
        ControlChart chart = ChartExamples.Individuals();
        chart.Phases.Add(new ControlPhase { Name = "later", MeasuredFrom = ChartExamples.At(300), Limits = ChartExamples.Known(50) });
        (int, long, double)[] readings = [.. ChartExamples.Normal(5, 600).Select((value, i) => (i, (long)i, value + (i >= 300 ? 50 : 0)))];

        ControlChartSummary summary = Draw(chart, readings)[0].Summary;

        Assert.InRange(summary.Autocorrelation, -0.08, 0.08);
        Assert.Empty(summary.AutocorrelationCaution);
    }

    [Fact]
    public void Draw_DependentReadings_CarryACaution()
    {
        double last = 0;
        (int, long, double)[] readings = [.. ChartExamples.Normal(6, 600).Select((value, i) => (i, (long)i, last = (0.8 * last) + value))];

        ControlChartSummary summary = Draw(ChartExamples.Individuals(), readings)[0].Summary;

        Assert.InRange(summary.Autocorrelation, 0.7, 0.9);
        Assert.Contains("limits from the moving range are too narrow", summary.AutocorrelationCaution, StringComparison.Ordinal);
    }

    // A year of a line. The time is noted; the bound is one that only another order of magnitude breaks.
    [Fact]
    public void Draw_AYearOfReadings_KeepsNoPoint()
    {
        SeriesColumns year = new(SeriesParts.Times | SeriesParts.RecordedOrder);
        double[] values = ChartExamples.Normal(91, Year);
        for (int i = 0; i < Year; i++)
        {
            year.Add(new SeriesReading(ChartExamples.Start.UtcTicks + (i * 100_000_000L), i, values[i], "", double.NaN, double.NaN));
        }

        NamedControlChart chart = new() { ControlChart = ChartExamples.Individuals() };
        Assert.NotEmpty(ControlChartDrawer.Draw(chart, year, null, 2000).ToArray());
        long before = GC.GetAllocatedBytesForCurrentThread();
        long start = Stopwatch.GetTimestamp();
        DrawnControlChart[] parts = [.. ControlChartDrawer.Draw(chart, year, null, 2000)];
        TimeSpan elapsed = Stopwatch.GetElapsedTime(start);
        output.WriteLine(FormattableString.Invariant($"{Year} readings drawn in {elapsed.TotalMilliseconds:0} ms"));

        Assert.Equal(1000, parts.Sum(part => part.Stretches.Count));
        Assert.Equal(1000, Points(parts).Length);
        Assert.Equal((ulong)Year, parts[0].Summary.PointCount);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 5_000_000);
        Assert.InRange(elapsed, TimeSpan.Zero, TimeSpan.FromSeconds(30));
    }

    private static DrawnControlChart[] Draw(
        ControlChart chart, (int Minute, long Order, double Value)[] readings, MeasuredSpan? span = null, int most = 2000) =>
        [.. ControlChartDrawer.Draw(new NamedControlChart { ControlChart = chart }, ChartExamples.Columns(readings), span, most)];

    private static ControlChartPoint[] Points(DrawnControlChart[] parts) => [.. parts.SelectMany(part => part.Points)];

    private static ControlChartPoint Unplaced(ControlChartPoint point)
    {
        ControlChartPoint copy = point.Clone();
        copy.PositionCount = 0;
        return copy;
    }
}

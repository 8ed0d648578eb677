using ClearView.Plotting.Charts;
using ClearView.Plotting.Decisions;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Tests.Decisions;

public sealed class ProcessChartTests
{
    private const double Tolerance = 1e-9;

    public static TheoryData<ControlPattern> Patterns => [.. Enum.GetValues<ControlPattern>().Where(pattern => pattern != ControlPattern.Unspecified)];

    [Theory]
    [MemberData(nameof(Patterns))]
    public void Build_APattern_HasAMarkAtItsPointAWordAndALegend(ControlPattern pattern)
    {
        PanelModel panel = ProcessChart.Build(SampleControlCharts.WithPatterns(pattern)).Panels[0];

        SeriesModel marks = Assert.Single(panel.Series, series => series.Label.EndsWith(": 1", StringComparison.Ordinal));
        Assert.Equal(new ChartPoint(1, 2.4), Assert.Single(marks.Points));
        AnnotationModel word = Assert.Single(panel.Annotations);
        Assert.Equal((1, 2.4), (word.X, word.Y));
        Assert.NotEmpty(word.Text);
        // The dot beneath gives way to the mark.
        Assert.DoesNotContain(Find(panel, "reading").Points, point => point.X == 1);
    }

    [Fact]
    public void Build_AllPatterns_HaveShapesOfTheirOwnAndStandOnOneAnother()
    {
        PanelModel panel = ProcessChart.Build(SampleControlCharts.WithPatterns([.. Patterns.Select(row => row.Data)])).Panels[0];

        SeriesModel[] marks = [.. panel.Series.Where(series => series.Label.EndsWith(": 1", StringComparison.Ordinal))];
        Assert.Equal(12, marks.Length);
        Assert.Equal(12, marks.Select(series => series.Look.Mark).Distinct().Count());
        Assert.Equal(12, marks.Select(series => series.MarkRisePt).Distinct().Count());
        Assert.DoesNotContain(marks, series => series.Look.Mark is MarkKind.FilledCircle or MarkKind.OpenCircle);
    }

    [Fact]
    public void Build_ALatePoint_HasAnOpenMarkNamedLate()
    {
        PanelModel panel = ProcessChart.Build(SampleControlCharts.WithPatterns(ControlPattern.Trend)).Panels[0];

        SeriesModel late = Find(panel, "late");
        Assert.Equal(MarkKind.OpenCircle, late.Look.Mark);
        Assert.Equal(2, Assert.Single(late.Points).X);
        Assert.DoesNotContain(Find(panel, "reading").Points, point => point.X == 2);
    }

    [Fact]
    public void Build_UnequalSubgroups_LimitsStepWithTheirSize()
    {
        IReadOnlyList<DrawnControlChart> parts = SampleControlCharts.Averages();
        PanelModel panel = ProcessChart.Build(parts).Panels[0];
        ChartPoint[] limits = [.. Find(panel, "control limits").Points];

        foreach (ControlChartPoint point in parts[1].Points)
        {
            double x = (point.MeasuredAt.ToDateTime() - parts[1].Points[0].MeasuredAt.ToDateTime()).TotalHours;
            Assert.Equal([point.Lower, point.Upper], At(limits, x).Order(), (one, other) => Math.Abs(one - other) < Tolerance);
        }

        // Both lines break at both changes of phase, and between one another.
        Assert.Equal(5, limits.Count(point => double.IsNaN(point.X)));
    }

    [Fact]
    public void Build_Phases_BeginHalfWayAndCarryTheirNames()
    {
        PanelModel panel = ProcessChart.Build(SampleControlCharts.Averages()).Panels[0];

        // Points stand 2 h apart; the second phase begins with point 16, the third with point 20.
        Assert.Equal([31, 39], panel.Bands.Skip(1).Select(band => band.From));
        Assert.Equal(3, panel.TopNames.Length);
        Assert.StartsWith("new die", panel.TopNames[2].Label, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_Baselines_AreBracketsOfTheirTime()
    {
        PanelModel panel = ProcessChart.Build(SampleControlCharts.Averages()).Panels[0];

        Assert.Equal([(0, 20), (40, 70)], Find(panel, "baseline").Whiskers.Select(one => (one.Low, one.High)));
        Assert.Equal(2, panel.Annotations.Count(word => word.Text == "baseline"));
    }

    [Fact]
    public void Build_Individuals_SpreadHasItsLimitsInAPanelOfItsOwn()
    {
        ChartModel chart = ProcessChart.Build(SampleControlCharts.Individuals());
        PanelModel spread = chart.Panels[1];

        Assert.Equal("Moving range (%)", spread.Y.Label);
        Assert.Contains(spread.RightNames, name => Math.Abs(name.Value - SampleControlCharts.RangeUpper) < Tolerance);
        Assert.Contains(spread.Series, series => series.Label.StartsWith("spread beyond", StringComparison.Ordinal));
        Assert.DoesNotContain(chart.Panels[0].Series, series => series.Label.StartsWith("spread beyond", StringComparison.Ordinal));
        Assert.Contains("UTC", spread.X.Label, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_Ewma_LimitsWiden()
    {
        PanelModel panel = Assert.Single(ProcessChart.Build(SampleControlCharts.Ewma()).Panels);
        double[] upper = [.. Find(panel, "control limits").Points.TakeWhile(point => double.IsFinite(point.X)).Select(point => point.Y)];

        Assert.Equal(upper.Order(), upper);
        // Montgomery 2013, equation 9.26: half width L·σ·√(λ/(2−λ)·(1−(1−λ)²ⁱ)), so λ·L·σ at the first point.
        Assert.Equal(SampleControlCharts.Centre + (0.2 * 3 * SampleControlCharts.Sigma), upper[0], Tolerance);
    }

    [Fact]
    public void Build_Cusum_ShowsBothSumsAroundZero()
    {
        IReadOnlyList<DrawnControlChart> parts = SampleControlCharts.Cusum();
        PanelModel panel = Assert.Single(ProcessChart.Build(parts).Panels);

        Assert.Equal(parts[1].Points.Select(point => -point.SumBelow), Find(panel, "line, sum below the target, negative").Points.Select(point => point.Y));
        Assert.Equal(parts[1].Points.Select(point => point.SumAbove), Find(panel, "line, sum above the target").Points.Select(point => point.Y));
        Assert.All(Find(panel, "zero").Points, point => Assert.Equal(0, point.Y));
        Assert.All(panel.Series.Single(series => series.Label.StartsWith("sum below exceeds", StringComparison.Ordinal)).Points, point => Assert.True(point.Y < -5 * SampleControlCharts.Sigma));
    }

    [Fact]
    public void Build_Thinned_IsABandWithItsMeanAndSaysSo()
    {
        IReadOnlyList<DrawnControlChart> parts = SampleControlCharts.Thinned();
        ChartModel chart = ProcessChart.Build(parts);
        PanelModel panel = Assert.Single(chart.Panels);

        Assert.Equal(2 * parts[1].Stretches.Count, Find(panel, "smallest to greatest of a stretch").Ribbon.Length);
        Assert.Equal(parts[1].Stretches.Select(stretch => stretch.Mean), Find(panel, "mean of a stretch").Points.Select(point => point.Y));
        ChartPoint[] marks = [.. panel.Series.Single(series => series.Label.StartsWith("beyond a limit: 300", StringComparison.Ordinal)).Points];
        Assert.InRange(marks.Length, 3, 30);
        Assert.Contains(marks, point => point.Y == parts[1].Points.Max(one => one.Plotted));
        Assert.Contains(chart.Notes, note => note.Contains("80000 points", StringComparison.Ordinal) && note.Contains("first 300 of 480", StringComparison.Ordinal));
    }

    [Fact]
    public void Build_Words_NameChartLimitsCautionAndRevision()
    {
        ChartModel chart = ProcessChart.Build(SampleControlCharts.Averages());

        Assert.Contains(chart.Notes, note => note.StartsWith("Caution: Neighbouring readings", StringComparison.Ordinal));
        Assert.Contains(chart.Notes, note => note.Contains("2 late readings", StringComparison.Ordinal) && note.Contains("2026-03-05 18:00 UTC", StringComparison.Ordinal));
        Assert.Contains(chart.Footer, line => line.Contains("line-2-haze, version 3", StringComparison.Ordinal));
        Assert.Equal(3, chart.Footer.Count(line => line.Contains("centre 2.40 %, s 0.12 %", StringComparison.Ordinal)));
    }

    [Fact]
    public void Build_WithoutPoints_IsRefused() => Assert.Contains(
        "no point", Assert.Throws<ChartRefusedException>(() => ProcessChart.Build([SampleControlCharts.Ewma()[0]])).Message, StringComparison.Ordinal);

    [Fact]
    public void Build_WithoutTheFirstPart_IsRefused() => Assert.Contains(
        "first part", Assert.Throws<ChartRefusedException>(() => ProcessChart.Build([SampleControlCharts.Ewma()[1]])).Message, StringComparison.Ordinal);

    private static SeriesModel Find(PanelModel panel, string label) => panel.Series.Single(series => series.Label == label);

    /// <summary>Where a line of steps stands strictly between two of its corners.</summary>
    private static IEnumerable<double> At(ChartPoint[] line, double x) =>
        line.Zip(line.Skip(1)).Where(pair => pair.First.X < x && pair.Second.X > x).Select(pair => pair.First.Y);
}

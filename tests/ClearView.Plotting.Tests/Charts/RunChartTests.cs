using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;

namespace ClearView.Plotting.Tests.Charts;

public sealed class RunChartTests
{
    [Fact]
    public void Build_FailingRoll_IsMarkedByShapeAndWord()
    {
        // Haze by hand: 100 × d / 90 for d = 1, 2, 3: 1.11, 2.22, 3.33 %.
        ChartModel chart = RunChart.Build(SampleReadings.Run(rolls: 3, perRoll: 4), "haze", new RunLimit(null, 3));

        PanelModel panel = Assert.Single(chart.Panels);
        SeriesModel fails = Assert.Single(panel.Series, series => series.Label == "fails the limit");
        Assert.Equal(MarkKind.DiagonalCross, fails.Look.Mark);
        Assert.Equal(4, fails.Points.Length);
        Assert.All(fails.Points, point => Assert.Equal(100 * 3.0 / 90, point.Y, 6));
        Assert.Equal("all 4 fail", Assert.Single(panel.Annotations).Text);
        Assert.Contains("4 outside the limit", chart.Subtitle, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_AllReadings_AreShownOnce()
    {
        ChartModel chart = RunChart.Build(SampleReadings.Run(3, 4), "haze", new RunLimit(null, 3));

        int shown = chart.Panels[0].Series.Where(series => series.Look.Mark != MarkKind.None).Sum(series => series.Points.Length);
        Assert.Equal(12, shown);
    }

    [Fact]
    public void Build_Limit_IsALineLabelledWithItsValueAndUnit()
    {
        ChartModel chart = RunChart.Build(SampleReadings.Run(2, 3), "luminous_transmittance", new RunLimit(88.5, 95));

        Assert.Equal(["limit ≤ 95 %", "limit ≥ 88.5 %"], chart.Panels[0].ReferenceLines.Select(line => line.Label));
        Assert.Equal([95, 88.5], chart.Panels[0].ReferenceLines.Select(line => line.Value));
        Assert.True(chart.Panels[0].Y.Minimum < 88.5 && chart.Panels[0].Y.Maximum > 95);
        Assert.Equal("Luminous transmittance τt (%)", chart.Panels[0].Y.Label);
    }

    [Fact]
    public void Build_ValueAtItsLimit_Passes()
    {
        ChartReading reading = SampleReadings.Film();
        double haze = reading.Evaluation.Values.Single(value => value.Measurand == "haze").Value;

        ChartModel chart = RunChart.Build([reading], "haze", new RunLimit(haze, haze));

        Assert.Contains("all within the limit", chart.Subtitle, StringComparison.Ordinal);
        Assert.Empty(chart.Panels[0].Annotations);
    }

    [Fact]
    public void Build_Rolls_AlternateInMarkAndMeetWithoutGaps()
    {
        PanelModel panel = RunChart.Build(SampleReadings.Run(3, 4), "haze", null).Panels[0];

        Assert.Equal(["R-100", "R-101", "R-102"], panel.Bands.Select(band => band.Label));
        Assert.Equal(panel.X.Minimum, panel.Bands[0].From);
        Assert.Equal(panel.X.Maximum, panel.Bands[^1].To);
        Assert.All(panel.Bands.Zip(panel.Bands.Skip(1)), pair => Assert.Equal(pair.First.To, pair.Second.From));
        Assert.NotEqual(panel.Series[0].Look.Mark, panel.Series[1].Look.Mark);
        Assert.Equal(panel.Series[0].Look, panel.Series[2].Look);
    }

    [Fact]
    public void Build_ManyRolls_PrintsWhatTellsThemApart()
    {
        PanelModel panel = RunChart.Build(SampleReadings.Run(20, 1), "haze", null).Panels[0];

        Assert.Equal("Roll R-…", panel.BandsLabel);
        Assert.Equal("100", panel.Bands[0].Label);
    }

    [Fact]
    public void Build_UnorderedReadings_AreOrderedByTime()
    {
        IReadOnlyList<ChartReading> run = SampleReadings.Run(2, 3);

        ChartModel ordered = RunChart.Build(run, "haze", null);
        ChartModel shuffled = RunChart.Build([.. run.Reverse()], "haze", null);

        Assert.Equal(ordered.Panels[0].Series.SelectMany(s => s.Points), shuffled.Panels[0].Series.SelectMany(s => s.Points));
    }

    [Fact]
    public void Build_SameTime_FallsBackToSequence()
    {
        ChartReading[] run = [.. Enumerable.Range(0, 5).Select(i => SampleReadings.Film(specimen: $"S{i}"))];

        PanelModel panel = RunChart.Build(run, "haze", null).Panels[0];

        Assert.Equal("Reading, in sequence", panel.X.Label);
        Assert.Equal([1, 2, 3, 4, 5], panel.Series[0].Points.Select(point => point.X));
    }

    [Fact]
    public void Build_TimeAxis_NamesDayAndZone()
    {
        PanelModel panel = RunChart.Build(SampleReadings.Run(2, 30), "haze", null).Panels[0];

        Assert.Equal("Time of measurement (UTC), 3 March 2026", panel.X.Label);
        Assert.Equal("06:00", panel.X.Ticks[0].Label);
        Assert.Equal(0, panel.X.Ticks[0].Value, 12);
    }

    [Fact]
    public void Build_Empty_IsRefused() =>
        Assert.Contains("no reading", Assert.Throws<ChartRefusedException>(() => RunChart.Build([], "haze", null)).Message, StringComparison.Ordinal);

    [Fact]
    public void Build_MeasurandThatNoneHas_IsRefusedWithThoseThatThereAre()
    {
        ChartRefusedException refusal = Assert.Throws<ChartRefusedException>(
            () => RunChart.Build([SampleReadings.Hazemeter()], "cielab_l", null));

        Assert.Contains("haze", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_SomeWithoutTheMeasurand_SaysHowMany()
    {
        ChartModel chart = RunChart.Build([SampleReadings.Film(), SampleReadings.Film(diffusePercent: null)], "haze", null);

        Assert.Contains(chart.Notes, note => note.Contains("1 of 2 readings", StringComparison.Ordinal));
    }

    [Fact]
    public void Build_Hazemeter_IsShown() =>
        Assert.Single(RunChart.Build([SampleReadings.Hazemeter()], "haze", null).Panels[0].Series[0].Points);
}

using System.Text;

using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;
using ClearView.Plotting.Theme;

using SkiaSharp;

namespace ClearView.Plotting.Tests.Decisions;

public sealed class EveryDecisionChartTests
{
    public static TheoryData<string> Names => SampleDecisions.Names;

    [Theory]
    [MemberData(nameof(Names))]
    public void Series_WithoutColour_ArePairwiseDistinct(string name)
    {
        SeriesModel[] legend = [.. SampleDecisions.All[name]().LegendSeries];

        Assert.Equal(legend.Length, legend.Select(s => (s.Look.Line, s.Look.Mark, s.Look.Fill, !s.Whiskers.IsEmpty)).Distinct().Count());
        Assert.All(legend, series => Assert.False(series.Look is { Line: LineKind.None, Mark: MarkKind.None, Fill: FillKind.None }, series.Label));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Axes_Always_AreFinite(string name)
    {
        ChartModel chart = SampleDecisions.All[name]();

        Assert.All(
            chart.Panels.SelectMany(panel => new[] { panel.X, panel.Y }),
            axis => Assert.True(double.IsFinite(axis.Minimum) && double.IsFinite(axis.Maximum) && axis.Minimum < axis.Maximum));
        Assert.NotEmpty(chart.Footer);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Text_Always_StaysInThePictureAndNeverOverlaps(string name)
    {
        ChartModel chart = SampleDecisions.All[name]();
        PrintedText[] texts = PrintedText.Of(chart);

        Assert.All(texts, text => Assert.True(
            text.Box is { Left: >= 0, Top: >= 0 } && text.Box.Right <= ReportTheme.WidthPt && text.Box.Bottom <= chart.HeightPt, $"\"{text.Words}\" is cut at {text.Box}."));
        for (int i = 0; i < texts.Length; i++)
        {
            for (int j = i + 1; j < texts.Length; j++)
            {
                Assert.False(texts[i].Box.IntersectsWith(texts[j].Box), $"\"{texts[i].Words}\" {texts[i].Box} and \"{texts[j].Words}\" {texts[j].Box} overlap.");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Text_Always_HoldsTitleLegendAndNamesAtTheEdges(string name)
    {
        ChartModel chart = SampleDecisions.All[name]();
        string[] words = [.. PrintedText.Of(chart).Select(text => text.Words)];

        Assert.Contains(chart.Title, words);
        Assert.All(chart.LegendSeries, series => Assert.Contains(series.Label, words));
        Assert.All(chart.Panels.SelectMany(panel => panel.RightNames.Concat(panel.TopNames)), one => Assert.Contains(one.Label, words));
        Assert.All(chart.Figures, figure => Assert.Contains(figure.Label, words));
        string flowing = string.Join(" ", words);
        Assert.All(chart.Footer.Concat(chart.Notes), line => Assert.Contains(line, flowing, StringComparison.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void ToPng_Always_LeavesTheEdgeFree(string name)
    {
        using SKBitmap bitmap = SKBitmap.Decode(ChartRenderer.ToPng(SampleDecisions.All[name]()));

        const int Margin = 8;
        SKColor[] edge =
        [
            .. Enumerable.Range(0, bitmap.Width).SelectMany(x => Enumerable.Range(0, Margin).SelectMany(d => new[] { bitmap.GetPixel(x, d), bitmap.GetPixel(x, bitmap.Height - 1 - d) })),
            .. Enumerable.Range(0, bitmap.Height).SelectMany(y => Enumerable.Range(0, Margin).SelectMany(d => new[] { bitmap.GetPixel(d, y), bitmap.GetPixel(bitmap.Width - 1 - d, y) })),
        ];
        Assert.All(edge.Distinct(), colour => Assert.Equal(SKColors.White, colour));
    }

    [Fact]
    public void ToPdf_AChart_IsOnePageAndTheSameEachTime()
    {
        byte[] pdf = ChartRenderer.ToPdf(SampleDecisions.All["plan"]());

        // ISO 32000-1, 7.5.2: the header; 7.7.3.2: the number of pages.
        Assert.StartsWith("%PDF-1.", Encoding.Latin1.GetString(pdf, 0, 8), StringComparison.Ordinal);
        Assert.Contains("/Count 1", Encoding.Latin1.GetString(pdf), StringComparison.Ordinal);
        Assert.Equal(pdf, ChartRenderer.ToPdf(SampleDecisions.All["plan"]()));
    }
}

using System.Buffers.Binary;
using System.Xml.Linq;

using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;
using ClearView.Plotting.Tests.Charts;

using SkiaSharp;

namespace ClearView.Plotting.Tests.Rendering;

public sealed class ChartRendererTests
{
    // Portable Network Graphics specification, 5.2: the signature.
    private static readonly byte[] PngSignature = [137, 80, 78, 71, 13, 10, 26, 10];
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    public static TheoryData<string> Names => SampleCharts.Names;

    [Theory]
    [MemberData(nameof(Names))]
    public void ToPng_EveryChart_IsAPictureOfReportSize(string name)
    {
        byte[] png = ChartRenderer.ToPng(SampleCharts.All[name]());

        Assert.Equal(PngSignature, png.Take(8));
        Assert.Equal(ChartRenderer.PngWidthPx, BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(16)));
        Assert.Equal(ChartRenderer.PngHeightPx(SampleCharts.All[name]()), BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(20)));
        using SKBitmap bitmap = SKBitmap.Decode(png);
        Assert.True(bitmap.Pixels.Distinct().Count() > 10, "The picture is empty.");
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void ToPng_EveryChart_LeavesTheEdgeFree(string name)
    {
        using SKBitmap bitmap = SKBitmap.Decode(ChartRenderer.ToPng(SampleCharts.All[name]()));

        const int Margin = 8;
        for (int y = 0; y < bitmap.Height; y++)
        {
            for (int x = 0; x < bitmap.Width; x++)
            {
                bool edge = x < Margin || y < Margin || x >= bitmap.Width - Margin || y >= bitmap.Height - Margin;
                Assert.False(edge && bitmap.GetPixel(x, y) != SKColors.White, $"Something is cut at {x}, {y}.");
                if (!edge && x == Margin)
                {
                    x = bitmap.Width - Margin - 1;
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void ToSvg_EveryChart_IsVectorsWithEveryWordOfTheModel(string name)
    {
        ChartModel chart = SampleCharts.All[name]();
        XElement root = XDocument.Load(new MemoryStream(ChartRenderer.ToSvg(chart))).Root!;

        Assert.Equal(Svg + "svg", root.Name);
        Assert.Empty(root.Descendants(Svg + "image"));
        Assert.NotEmpty(root.Descendants(Svg + "path"));
        string[] words = [.. root.Descendants(Svg + "text").Select(text => text.Value)];
        Assert.Contains(chart.Title, words);
        Assert.All(chart.LegendSeries, series => Assert.Contains(series.Label, words));
        Assert.All(chart.Panels.Select(panel => panel.Y.Label), label => Assert.Contains(label, words));
        Assert.All(chart.Panels.SelectMany(panel => panel.ReferenceLines).Where(l => l.Label.Length > 0), line => Assert.Contains(line.Label, words));
        Assert.All(chart.Panels.SelectMany(panel => panel.Annotations), annotation => Assert.Contains(annotation.Text, words));
        string flowing = string.Join(" ", words);
        Assert.All(chart.Footer, line => Assert.Contains(line, flowing, StringComparison.Ordinal));
    }

    [Fact]
    public void ToSvg_Text_KeepsItsLengthUnderAnotherFont()
    {
        XElement root = XDocument.Load(new MemoryStream(ChartRenderer.ToSvg(SampleCharts.All["spectral, clear"]()))).Root!;

        Assert.All(root.Descendants(Svg + "text"), text =>
        {
            Assert.True(double.Parse(text.Attribute("textLength")!.Value, System.Globalization.CultureInfo.InvariantCulture) > 0);
            Assert.Contains("sans-serif", text.Attribute("font-family")!.Value, StringComparison.Ordinal);
        });
    }

    [Fact]
    public void ToPng_SameChart_GivesTheSameBytes() =>
        Assert.Equal(
            ChartRenderer.ToPng(SampleCharts.All["run, rolls and limit"]()), ChartRenderer.ToPng(SampleCharts.All["run, rolls and limit"]()));

    [Fact]
    public void Write_NameWithForeignCharacters_StaysInTheFolder()
    {
        string folder = Directory.CreateTempSubdirectory("clearview-charts").FullName;
        try
        {
            IReadOnlyList<string> paths = ChartWriter.Write(
                SampleCharts.All["spectral, clear"](), Path.Combine(folder, "new"), "../R 1/µ", [ChartFormat.Png, ChartFormat.Svg]);

            Assert.Equal(2, paths.Count);
            Assert.All(paths, path => Assert.Equal(Path.Combine(folder, "new"), Path.GetDirectoryName(path)));
            Assert.All(paths, path => Assert.True(new FileInfo(path).Length > 1000));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}

using ClearView.Plotting.Theme;

using ScottPlot;

using SkiaSharp;

namespace ClearView.Plotting.Tests.Theme;

public sealed class ChartFontTests
{
    // What the charts print beyond ASCII.
    private const string Special = "−×°µ≤≥′…λτ*–";

    [Fact]
    public void Use_WithoutInstalledFonts_GivesTheOwnFont()
    {
        ChartFont font = ChartFont.Use();

        Assert.Equal(ChartFont.Family, font.Regular.FamilyName);
        Assert.True(font.Bold.FontWeight > font.Regular.FontWeight);
        Assert.Same(font.Regular, Fonts.GetTypeface(ChartFont.Family, FontWeight.Normal, FontSlant.Upright, FontSpacing.Normal));
        Assert.Same(font.Bold, Fonts.GetTypeface(ChartFont.Family, FontWeight.Bold, FontSlant.Upright, FontSpacing.Normal));
    }

    [Fact]
    public void Use_EveryCharacterOfTheCharts_HasAGlyph()
    {
        string ascii = string.Concat(Enumerable.Range(32, 95).Select(code => (char)code));
        foreach (SKTypeface typeface in new[] { ChartFont.Use().Regular, ChartFont.Use().Bold })
        {
            Assert.All(ascii + Special, c => Assert.True(typeface.ContainsGlyph(c), $"No glyph for {c}."));
        }
    }
}

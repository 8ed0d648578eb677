using ClearView.Plotting.Rendering;

namespace ClearView.Plotting.Tests.Rendering;

public sealed class TextPainterTests
{
    private const string Text = "Method: ASTM D1003 procedure B, illuminant C, 2° observer, interval 5 nm, weighting by the table";

    [Fact]
    public void WrapEvenly_LongText_KeepsEveryWordWithinTheWidth()
    {
        List<string> lines = TextPainter.WrapEvenly(Text, 11, 300);

        Assert.Equal(Text, string.Join(" ", lines));
        Assert.All(lines, line => Assert.True(TextPainter.Measure(line, 11) <= 300));
        Assert.Equal(TextPainter.Wrap(Text, 11, 300).Count, lines.Count);
    }

    [Fact]
    public void Wrap_WordWiderThanTheWidth_StandsAlone() =>
        Assert.Equal(["a", "unbreakable", "b"], TextPainter.Wrap("a unbreakable b", 11, 20));
}

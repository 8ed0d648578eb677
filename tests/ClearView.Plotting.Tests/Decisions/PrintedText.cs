using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;

using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;

using SkiaSharp;

namespace ClearView.Plotting.Tests.Decisions;

/// <summary>A text of a chart's SVG with the rectangle that its letters fill, points.</summary>
internal sealed partial record PrintedText(string Words, SKRect Box)
{
    // Ascent and descent of common letters in shares of the font size.
    private const float Ascent = 0.74f;
    private const float Descent = 0.2f;

    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>Every text once: the drawing library sets those of a panel twice at the same place.</summary>
    public static PrintedText[] Of(ChartModel chart)
    {
        XElement root = XDocument.Load(new MemoryStream(ChartRenderer.ToSvg(chart))).Root!;
        return [.. root.Descendants(Svg + "text").Where(text => text.Value.Length > 0).Select(Of).Distinct()];
    }

    private static PrintedText Of(XElement text)
    {
        float size = Number(text, "font-size");
        float left = Number(text, "x");
        float baseline = Number(text, "y");
        var box = new SKRect(left, baseline - (Ascent * size), left + Number(text, "textLength"), baseline + (Descent * size));
        if (text.Attribute("transform")?.Value is not { } transform)
        {
            return new PrintedText(text.Value, box);
        }

        Match match = Moves().Match(transform);
        Assert.True(match.Success, transform);
        float x = float.Parse(match.Groups["x"].Value, CultureInfo.InvariantCulture);
        float y = float.Parse(match.Groups["y"].Value, CultureInfo.InvariantCulture);
        // A quarter turn to the left: what ran to the right runs upwards.
        return new PrintedText(text.Value, match.Groups["turn"].Success
            ? new SKRect(x + box.Top, y - box.Right, x + box.Bottom, y - box.Left)
            : new SKRect(x + box.Left, y + box.Top, x + box.Right, y + box.Bottom));
    }

    private static float Number(XElement text, string name) => float.Parse(text.Attribute(name)!.Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(translate\(|(?<turn>matrix\([-\d.e]+ -1 1 [-\d.e]+ ))(?<x>[-\d.e]+) (?<y>[-\d.e]+)\)$")]
    private static partial Regex Moves();
}

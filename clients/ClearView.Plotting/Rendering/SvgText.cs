using System.Globalization;
using System.Xml.Linq;

using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

namespace ClearView.Plotting.Rendering;

/// <summary>Makes the text of an SVG independent of the fonts of the reader's machine.</summary>
/// <remarks>
/// The canvas places each letter by itself, at whole points and for Inter only. Here a text keeps its start and its length
/// instead, so that letters keep their natural distances and another sans-serif font still fills the same space.
/// </remarks>
internal static class SvgText
{
    private const string Families = ChartFont.Family + ", 'DejaVu Sans', Helvetica, Arial, sans-serif";
    private const string BoldWeight = "600";

    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    public static byte[] Settle(Stream svg, ChartModel chart)
    {
        XDocument document = XDocument.Load(svg);
        XElement root = document.Root ?? throw new InvalidDataException("The SVG is empty.");
        root.SetAttributeValue("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {ReportTheme.WidthPt} {chart.HeightPt}"));
        root.SetAttributeValue("role", "img");
        root.AddFirst(new XElement(Svg + "title", chart.Title), new XElement(Svg + "desc", chart.Subtitle));
        foreach (XElement text in root.Descendants(Svg + "text"))
        {
            Settle(text);
        }

        using var settled = new MemoryStream();
        document.Save(settled);
        return settled.ToArray();
    }

    private static void Settle(XElement text)
    {
        string words = text.Value.Trim();
        bool bold = text.Attribute("font-weight") is not null;
        float size = float.Parse(text.Attribute("font-size")?.Value ?? "0", CultureInfo.InvariantCulture);
        text.Value = words;
        text.SetAttributeValue("x", First(text, "x"));
        text.SetAttributeValue("y", First(text, "y"));
        text.SetAttributeValue("font-family", Families);
        text.SetAttributeValue("font-weight", bold ? BoldWeight : null);
        text.SetAttributeValue("textLength", TextPainter.Measure(words, size, bold).ToString("0.##", CultureInfo.InvariantCulture));
        text.SetAttributeValue("lengthAdjust", "spacingAndGlyphs");
        text.SetAttributeValue(XNamespace.Xml + "space", "preserve");
    }

    private static string First(XElement text, string name) => text.Attribute(name)?.Value.Split(',')[0].Trim() ?? "0";
}

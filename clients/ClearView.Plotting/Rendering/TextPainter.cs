using ClearView.Plotting.Theme;

using ScottPlot;

using SkiaSharp;

namespace ClearView.Plotting.Rendering;

/// <summary>Sets lines of text on a canvas, and breaks those that are too long.</summary>
internal sealed class TextPainter(SKCanvas canvas)
{
    private const float Leading = 1.35f;
    private const float NarrowStep = 0.95f;

    public static float LineHeight(float size) => size * Leading;

    public static float Measure(string text, float size, bool bold = false)
    {
        using SKFont font = Font(size, bold);
        return font.MeasureText(text);
    }

    /// <summary>Breaks a text at spaces into lines no wider than <paramref name="width"/>, as far as its words allow.</summary>
    public static List<string> Wrap(string text, float size, float width, bool bold = false)
    {
        using SKFont font = Font(size, bold);
        var lines = new List<string>();
        string line = "";
        foreach (string word in text.Split(' '))
        {
            string longer = line.Length == 0 ? word : line + " " + word;
            if (line.Length > 0 && font.MeasureText(longer) > width)
            {
                lines.Add(line);
                longer = word;
            }

            line = longer;
        }

        lines.Add(line);
        return lines;
    }

    /// <summary>As <see cref="Wrap"/>, in as few lines, but of similar length: no word is left alone on the last.</summary>
    public static List<string> WrapEvenly(string text, float size, float width, bool bold = false)
    {
        List<string> best = Wrap(text, size, width, bold);
        for (float narrower = width * NarrowStep; best.Count > 1 && narrower > width / 2; narrower -= width * (1 - NarrowStep))
        {
            List<string> lines = Wrap(text, size, narrower, bold);
            if (lines.Count > best.Count)
            {
                break;
            }

            best = lines;
        }

        return best;
    }

    /// <summary>Draws one line whose baseline starts at the given point.</summary>
    public void Draw(string text, float x, float baseline, float size, Color colour, bool bold = false)
    {
        using SKFont font = Font(size, bold);
        using var paint = new SKPaint { Color = colour.ToSKColor(), IsAntialias = true };
        canvas.DrawText(text, x, baseline, SKTextAlign.Left, font, paint);
    }

    private static SKFont Font(float size, bool bold)
    {
        ChartFont typefaces = ChartFont.Use();
        return new SKFont(bold ? typefaces.Bold : typefaces.Regular, size) { Subpixel = true, LinearMetrics = true, Hinting = SKFontHinting.None };
    }
}

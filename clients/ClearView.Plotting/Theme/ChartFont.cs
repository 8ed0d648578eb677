using System.Reflection;

using ScottPlot;

using SkiaSharp;

namespace ClearView.Plotting.Theme;

/// <summary>The font of every chart. It comes with the program: a bare machine often has no font at all.</summary>
internal sealed class ChartFont : IFontResolver
{
    /// <summary>Name of the family.</summary>
    public const string Family = "Inter";

    private const string RegularFile = "/Assets/Inter-Regular.ttf";
    private const string BoldFile = "/Assets/Inter-SemiBold.ttf";

    private static readonly Lazy<ChartFont> Instance = new(Register);

    private ChartFont(SKTypeface regular, SKTypeface bold)
    {
        Regular = regular;
        Bold = bold;
    }

    public SKTypeface Regular { get; }

    public SKTypeface Bold { get; }

    /// <summary>The font, known to the drawing library from the first use on.</summary>
    public static ChartFont Use() => Instance.Value;

    public SKTypeface? CreateTypeface(string fontName, FontWeight weight, FontSlant slant, FontSpacing spacing) =>
        fontName == Family ? (weight >= FontWeight.SemiBold ? Bold : Regular) : null;

    public SKTypeface? CreateTypeface(string fontName, bool bold, bool italic) =>
        fontName == Family ? (bold ? Bold : Regular) : null;

    private static ChartFont Register()
    {
        FontArchive archive = FontArchive.Open(Assembly.GetExecutingAssembly());
        var font = new ChartFont(Load(archive, RegularFile), Load(archive, BoldFile));
        Fonts.FontResolvers.Insert(0, font);
        Fonts.Default = Family;
        Fonts.Sans = Family;
        return font;
    }

    private static SKTypeface Load(FontArchive archive, string file)
    {
        using var data = SKData.CreateCopy(archive.Read(file));
        return SKTypeface.FromData(data)
            ?? throw new InvalidOperationException($"The font file {file} that comes with the program cannot be read.");
    }
}

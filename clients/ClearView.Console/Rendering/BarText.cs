namespace ClearView.Console.Rendering;

/// <summary>Draws shares as bars of characters.</summary>
internal static class BarText
{
    private const int EighthsInBlock = 8;
    private const string Eighths = "▏▎▍▌▋▊▉";

    /// <summary>A bar, as long as the share, to an eighth of a character.</summary>
    /// <param name="fraction">The share, 0 to 1; beyond is held.</param>
    /// <param name="width">Characters of a whole.</param>
    public static string Of(double fraction, int width)
    {
        var eighths = (int)Math.Round(Math.Clamp(fraction, 0, 1) * width * EighthsInBlock, MidpointRounding.AwayFromZero);
        var bar = new string('█', eighths / EighthsInBlock);
        return eighths % EighthsInBlock is var rest and > 0 ? bar + Eighths[rest - 1] : bar;
    }
}

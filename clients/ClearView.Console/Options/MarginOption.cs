using ClearView.V1;

using Measurand = ClearView.Optics.Evaluations.Measurand;

namespace ClearView.Console.Options;

/// <summary>The option that states within which difference lots count as equivalent.</summary>
internal sealed class MarginOption
{
    private const string Form = "write MEASURAND=MARGIN, or MEASURAND=MARGIN,U with the expanded uncertainty of one reading, for example haze=0.2,0.1";

    /// <summary>The option itself.</summary>
    public CheckedOption<MeasurandMargin> Margins { get; } = new(
        "--margin", "NAME=NUMBER[,U]",
        "Difference below which lots count as equivalent, in the measurand's unit, for example haze=0.2; then, after a comma, the "
            + "expanded uncertainty (k = 2) of one reading of the instrument; repeatable.",
        Read, Form, repeatable: true);

    private static MeasurandMargin? Read(string text)
    {
        var at = text.IndexOf('=', StringComparison.Ordinal);
        if (at < 1 || !Measurand.TryFind(text[..at].Trim(), out var measurand))
        {
            return null;
        }
        var numbers = text[(at + 1)..].Split(',').Select(Numerals.Read).ToList();
        return numbers switch
        {
            [{ } margin] when margin > 0 => new MeasurandMargin { Measurand = measurand.Id, Margin = margin },
            [{ } margin, { } uncertainty] when margin > 0 && uncertainty > 0 =>
                new MeasurandMargin { Measurand = measurand.Id, Margin = margin, InstrumentExpandedUncertainty = uncertainty },
            _ => null,
        };
    }
}

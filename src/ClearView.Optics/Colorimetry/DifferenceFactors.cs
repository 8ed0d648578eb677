using System.Globalization;

namespace ClearView.Optics.Colorimetry;

/// <summary>Parametric factors of the weighted colour differences, each above 0, numbers without unit.</summary>
/// <remarks>A factor above 1 makes the difference less sensitive to its part. Equal when every factor is equal.</remarks>
public sealed record DifferenceFactors
{
    /// <summary>Takes the factors.</summary>
    /// <param name="lightness">kL of CIE94 and CIEDE2000.</param>
    /// <param name="chroma">kC of CIE94 and CIEDE2000.</param>
    /// <param name="hue">kH of CIE94 and CIEDE2000.</param>
    /// <param name="cmcLightness">l of CMC(l:c).</param>
    /// <param name="cmcChroma">c of CMC(l:c).</param>
    /// <exception cref="ArgumentOutOfRangeException">A factor is not a finite number above 0.</exception>
    public DifferenceFactors(double lightness, double chroma, double hue, double cmcLightness, double cmcChroma)
    {
        Lightness = Positive(lightness, nameof(lightness));
        Chroma = Positive(chroma, nameof(chroma));
        Hue = Positive(hue, nameof(hue));
        CmcLightness = Positive(cmcLightness, nameof(cmcLightness));
        CmcChroma = Positive(cmcChroma, nameof(cmcChroma));
    }

    /// <summary>kL = kC = kH = 1, the reference conditions of CIE 116 and ISO/CIE 11664-6, and CMC(2:1) for acceptability (ISO 105-J03).</summary>
    public static DifferenceFactors Default { get; } = new(1, 1, 1, 2, 1);

    /// <summary>kL of CIE94 and CIEDE2000.</summary>
    public double Lightness { get; }

    /// <summary>kC of CIE94 and CIEDE2000.</summary>
    public double Chroma { get; }

    /// <summary>kH of CIE94 and CIEDE2000.</summary>
    public double Hue { get; }

    /// <summary>l of CMC(l:c): 2 for acceptability, 1 for perceptibility.</summary>
    public double CmcLightness { get; }

    /// <summary>c of CMC(l:c): 1 as a rule.</summary>
    public double CmcChroma { get; }

    /// <summary>The factors of CIE94 and CIEDE2000 beside a standard's name, for example ", kL:kC:kH = 2:1:1"; empty at 1:1:1.</summary>
    internal string Suffix => (Lightness, Chroma, Hue) == (1, 1, 1)
        ? ""
        : string.Create(CultureInfo.InvariantCulture, $", kL:kC:kH = {Lightness}:{Chroma}:{Hue}");

    /// <summary>The CMC difference with its factors, for example "CMC(2:1)".</summary>
    internal string CmcName => string.Create(CultureInfo.InvariantCulture, $"CMC({CmcLightness}:{CmcChroma})");

    private static double Positive(double value, string name) => value > 0 && double.IsFinite(value)
        ? value
        : throw new ArgumentOutOfRangeException(name, value, "expected a finite number above 0.");
}

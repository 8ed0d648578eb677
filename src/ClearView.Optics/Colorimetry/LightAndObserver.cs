namespace ClearView.Optics.Colorimetry;

/// <summary>An illuminant with an observer: what a colour or a luminous value holds for.</summary>
/// <param name="Illuminant">The illuminant.</param>
/// <param name="Observer">The observer.</param>
public sealed record LightAndObserver(Illuminant Illuminant, Observer Observer)
{
    /// <summary>Illuminant C, 2° observer.</summary>
    public static LightAndObserver CDegree2 { get; } = new(Illuminant.C, Observer.Cie1931Degree2);

    /// <summary>Illuminant A, 2° observer.</summary>
    public static LightAndObserver ADegree2 { get; } = new(Illuminant.A, Observer.Cie1931Degree2);

    /// <summary>Illuminant D65, 2° observer.</summary>
    public static LightAndObserver D65Degree2 { get; } = new(Illuminant.D65, Observer.Cie1931Degree2);

    /// <summary>Illuminant D65, 10° observer.</summary>
    public static LightAndObserver D65Degree10 { get; } = new(Illuminant.D65, Observer.Cie1964Degree10);

    /// <summary>For example "D65/10°".</summary>
    public override string ToString() => $"{Illuminant}/{Observer}";
}

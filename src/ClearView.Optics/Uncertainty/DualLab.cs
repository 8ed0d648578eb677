using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Uncertainty;

/// <summary>A CIELAB colour that carries derivatives.</summary>
internal readonly struct DualLab(Dual l, Dual a, Dual b)
{
    public Dual L { get; } = l;

    public Dual A { get; } = a;

    public Dual B { get; } = b;

    public Dual Chroma => Dual.Sqrt((A * A) + (B * B));

    /// <summary>Hue angle in degrees, [0, 360).</summary>
    public Dual HueDegrees
    {
        get
        {
            Dual degrees = Dual.Atan2(B, A) * (180 / Math.PI);
            return degrees.Value < 0 ? degrees + 360 : degrees;
        }
    }

    public static DualLab Constant(CieLab colour) => new(colour.L, colour.A, colour.B);
}

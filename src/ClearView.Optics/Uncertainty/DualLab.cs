using System.Runtime.Intrinsics;

using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Uncertainty;

/// <summary>A CIELAB colour that carries derivatives.</summary>
internal readonly struct DualLab(Dual l, Dual a, Dual b)
{
    public Dual L { get; } = l;

    public Dual A { get; } = a;

    public Dual B { get; } = b;

    /// <summary>Chroma; it has no derivative at an exactly neutral colour unless that colour is a constant.</summary>
    public Dual Chroma => IsConstant ? Math.Sqrt((A.Value * A.Value) + (B.Value * B.Value)) : Dual.Sqrt((A * A) + (B * B));

    /// <summary>Hue angle in degrees, [0, 360).</summary>
    public Dual HueDegrees
    {
        get
        {
            Dual degrees = (IsConstant ? Math.Atan2(B.Value, A.Value) : Dual.Atan2(B, A)) * (180 / Math.PI);
            return degrees.Value < 0 ? degrees + 360 : degrees;
        }
    }

    private bool IsConstant => A.Gradient == Vector512<double>.Zero && B.Gradient == Vector512<double>.Zero;

    /// <summary>From tristimulus values; see <see cref="CieLab.From"/>.</summary>
    public static DualLab From(DualTristimulus colour, Tristimulus white)
    {
        Dual fx = Compress(colour.X / white.X);
        Dual fy = Compress(colour.Y / white.Y);
        Dual fz = Compress(colour.Z / white.Z);
        return new DualLab((116 * fy) - 16, 500 * (fx - fy), 200 * (fy - fz));
    }

    public static DualLab Constant(CieLab colour) => new(colour.L, colour.A, colour.B);

    private static Dual Compress(Dual ratio)
    {
        double compressed = CieLab.Compress(ratio.Value);
        return new Dual(compressed, ratio.Gradient * CieLab.CompressionSlope(ratio.Value, compressed));
    }
}

using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Uncertainty;

/// <summary>Tristimulus values that carry derivatives.</summary>
internal readonly record struct DualTristimulus(Dual X, Dual Y, Dual Z)
{
    public static DualTristimulus Constant(Tristimulus colour) => new(colour.X, colour.Y, colour.Z);
}

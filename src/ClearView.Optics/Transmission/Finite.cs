using System.Runtime.CompilerServices;

namespace ClearView.Optics.Transmission;

/// <summary>Refuses NaN and infinity.</summary>
internal static class Finite
{
    public static double Required(double value, [CallerArgumentExpression(nameof(value))] string parameter = "") =>
        double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(parameter, value, $"{parameter} must be a finite number.");
}

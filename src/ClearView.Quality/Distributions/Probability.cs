using System.Runtime.CompilerServices;

namespace ClearView.Quality.Distributions;

/// <summary>Guards of the arguments of distributions.</summary>
internal static class Probability
{
    /// <summary>Refuses what is not strictly between 0 and 1.</summary>
    public static double Inside(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value > 0 && value < 1
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} was {value}; expected above 0 and below 1.");

    /// <summary>Refuses degrees of freedom below 1; infinity stands for a known standard deviation.</summary>
    public static double DegreesOfFreedom(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value >= 1
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} was {value}; expected at least 1.");
}

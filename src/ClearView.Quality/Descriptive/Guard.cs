using System.Runtime.CompilerServices;

namespace ClearView.Quality.Descriptive;

/// <summary>Guards of samples and figures.</summary>
internal static class Guard
{
    /// <summary>Refuses an empty sample and values that are not finite.</summary>
    public static void Values(IReadOnlyCollection<double> values, [CallerArgumentExpression(nameof(values))] string? name = null)
    {
        ArgumentNullException.ThrowIfNull(values, name);
        if (values.Count == 0)
        {
            throw new ArgumentException($"{name} holds no value; at least one is needed.", name);
        }

        int position = 0;
        foreach (double value in values)
        {
            position++;
            if (!double.IsFinite(value))
            {
                throw new ArgumentException($"Value {position} of {name} is {value}; each must be finite.", name);
            }
        }
    }

    /// <summary>Refuses what is not finite and above zero.</summary>
    public static double Positive(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) && value > 0
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} was {value}; expected finite and above 0.");
}

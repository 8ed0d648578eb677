using System.Diagnostics.CodeAnalysis;

namespace ClearView.Quality.Descriptive;

/// <summary>Guards against readings that are no numbers.</summary>
internal static class Finite
{
    /// <summary>Refuses a reading that is not finite.</summary>
    public static void Check(double reading, string name)
    {
        if (!double.IsFinite(reading))
        {
            Refuse(reading, name);
        }
    }

    [DoesNotReturn]
    private static void Refuse(double reading, string name) =>
        throw new ArgumentException(FormattableString.Invariant($"a reading was {reading}; expected a finite number."), name);
}

namespace ClearView.Quality.Descriptive;

/// <summary>An interval, ends included, in the unit of what it is about.</summary>
/// <param name="Lower">Lower end.</param>
/// <param name="Upper">Upper end.</param>
public readonly record struct Interval(double Lower, double Upper)
{
    /// <summary>Whether a value lies within.</summary>
    public bool Contains(double value) => value >= Lower && value <= Upper;

    /// <summary>Whether the whole interval lies strictly between two limits.</summary>
    public bool LiesWithin(double lower, double upper) => Lower > lower && Upper < upper;

    internal static Interval Around(double centre, double half) => new(centre - half, centre + half);
}

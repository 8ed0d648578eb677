namespace ClearView.Quality.Lots;

/// <summary>Two lots side by side. Differences are first less second, in the measurand's unit.</summary>
/// <param name="First">Name of the first lot.</param>
/// <param name="Second">Name of the second lot.</param>
/// <param name="Difference">Difference of the means.</param>
/// <param name="Welch">t test for unequal variances (Welch 1947), not adjusted for the number of pairs.</param>
/// <param name="TukeyKramer">Adjusted for all pairs, for lots of equal variance (Tukey 1953; Kramer 1956).</param>
/// <param name="GamesHowell">Adjusted for all pairs, for lots of unequal variance (Games and Howell 1976).</param>
/// <param name="Equivalence">Against the stated margin; <see langword="null"/> where none was stated.</param>
/// <param name="Effect">Effect size.</param>
/// <param name="SmallestTellable">Expanded uncertainty of a difference of two readings, √2·U; <see langword="null"/> where U was not stated.</param>
/// <param name="SpecimensToShowDifference">Per lot, for a t test to show this difference with the stated power; <see langword="null"/> where it cannot be said.</param>
/// <param name="SpecimensToShowEquivalence">Per lot, for equivalence to be shown with the stated power; <see langword="null"/> where it cannot be said.</param>
public sealed record LotPair(
    string First,
    string Second,
    double Difference,
    Stated<TTest> Welch,
    Stated<RangeTest> TukeyKramer,
    Stated<RangeTest> GamesHowell,
    Stated<EquivalenceTest>? Equivalence,
    Stated<EffectSize> Effect,
    double? SmallestTellable,
    int? SpecimensToShowDifference,
    int? SpecimensToShowEquivalence)
{
    /// <summary>Whether the difference is within what the instrument cannot tell; <see langword="null"/> where its uncertainty was not stated.</summary>
    public bool? BelowInstrument => SmallestTellable is { } least ? Math.Abs(Difference) < least : null;
}

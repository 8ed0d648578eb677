namespace ClearView.Quality.Specifications;

/// <summary>What is decided on one limit, or on all together.</summary>
public enum Verdict
{
    /// <summary>Conformity: under a guard band proven, under simple acceptance accepted.</summary>
    Conformity = 1,

    /// <summary>Non-conformity: under a guard band proven, under simple acceptance rejected.</summary>
    NonConformity = 2,

    /// <summary>Under a guard band: the value lies so close to a limit that neither is proven.</summary>
    NeitherProven = 3,

    /// <summary>Something that the decision needs is missing; the reason says what.</summary>
    NotDecided = 4,
}

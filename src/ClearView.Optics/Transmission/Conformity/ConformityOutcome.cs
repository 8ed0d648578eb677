namespace ClearView.Optics.Transmission.Conformity;

/// <summary>Whether recorded conditions meet a requirement.</summary>
public enum ConformityOutcome
{
    /// <summary>They meet it.</summary>
    Met = 1,

    /// <summary>They do not.</summary>
    NotMet = 2,

    /// <summary>The record does not say.</summary>
    NotRecorded = 3,
}

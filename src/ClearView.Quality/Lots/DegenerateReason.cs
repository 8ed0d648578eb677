namespace ClearView.Quality.Lots;

/// <summary>Why a statistic has no value for these specimens.</summary>
public enum DegenerateReason
{
    /// <summary>Not decided.</summary>
    Unspecified = 0,

    /// <summary>A lot has too few specimens for its spread, or the lots together for the residual.</summary>
    TooFewSpecimens,

    /// <summary>The specimens do not spread, or those of a lot do not where its own spread is needed.</summary>
    NoSpread,

    /// <summary>Ageing times are missing, or do not differ within a lot.</summary>
    NoAgeing,
}

namespace ClearView.Quality.Series;

/// <summary>What a series keeps beside its values; a study asks for what it needs, so that a year stays small in memory.</summary>
[Flags]
public enum SeriesParts
{
    /// <summary>Values only.</summary>
    None = 0,

    /// <summary>Times of measurement.</summary>
    Times = 1 << 0,

    /// <summary>The order in which readings were recorded, from which late ones are told.</summary>
    RecordedOrder = 1 << 1,

    /// <summary>Labels that subgroups are formed by.</summary>
    Labels = 1 << 2,

    /// <summary>Places on the web.</summary>
    Places = 1 << 3,
}

namespace ClearView.Records.Model;

/// <summary>Which text comes with each value of a series.</summary>
public enum SeriesLabel
{
    /// <summary>None: "".</summary>
    None,

    /// <summary>The roll.</summary>
    Roll,

    /// <summary>The lot.</summary>
    Lot,
}

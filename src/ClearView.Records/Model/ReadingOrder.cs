namespace ClearView.Records.Model;

/// <summary>Order of a list: by time of measurement, then by identifier.</summary>
public enum ReadingOrder
{
    /// <summary>Oldest measurement first.</summary>
    OldestFirst,

    /// <summary>Newest measurement first.</summary>
    NewestFirst,
}

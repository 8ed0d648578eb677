using System.Globalization;

namespace ClearView.Records.Audit;

/// <summary>Which record a link of a chain holds.</summary>
/// <param name="Kind">Its kind: "reading", "signals" for what a reading raised when it was posted, the kind of a document such as "method", or "heads" for the heads of other chains, or "retired" for a month that was taken out.</param>
/// <param name="Name">Name of a document; number of the chain for heads; the retired month, "2024-11"; "" for a reading and its signals.</param>
/// <param name="Number">Sequence of the reading, version of a document, position of heads, part of a retired month.</param>
public readonly record struct RecordKey(string Kind, string Name, long Number)
{
    /// <summary>Kind of readings.</summary>
    public const string ReadingKind = "reading";

    /// <summary>Kind of the signals of readings.</summary>
    public const string SignalsKind = "signals";

    /// <summary>Kind of links that hold the heads of other chains.</summary>
    public const string HeadsKind = "heads";

    /// <summary>Kind of the retirements of months.</summary>
    public const string RetiredKind = "retired";

    /// <summary>The key of a reading.</summary>
    /// <param name="sequence">Its place in the order of recording.</param>
    public static RecordKey Reading(long sequence) => new(ReadingKind, "", sequence);

    /// <summary>The key of the signals of a reading.</summary>
    /// <param name="sequence">The reading's place in the order of recording.</param>
    public static RecordKey Signals(long sequence) => new(SignalsKind, "", sequence);

    /// <summary>In words, for example "reading 17" or "method \"film-25\" version 3".</summary>
    public override string ToString() => this switch
    {
        { Name.Length: 0 } => string.Create(CultureInfo.InvariantCulture, $"{Kind} {Number}"),
        { Kind: HeadsKind } => string.Create(CultureInfo.InvariantCulture, $"heads of other chains, at {Name}:{Number}"),
        { Kind: RetiredKind } => string.Create(CultureInfo.InvariantCulture, $"retirement of {Name}, part {Number}"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{Kind} \"{Name}\" version {Number}"),
    };
}

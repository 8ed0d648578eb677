using System.Globalization;

namespace ClearView.Records.Audit;

/// <summary>Which record a link of a chain holds.</summary>
/// <param name="Kind">Its kind: "reading", the kind of a document such as "method", or "heads" for the heads of other chains.</param>
/// <param name="Name">Name of a document; number of the chain for heads; "" for a reading.</param>
/// <param name="Number">Sequence of a reading, version of a document, position of heads.</param>
public readonly record struct RecordKey(string Kind, string Name, long Number)
{
    /// <summary>Kind of readings.</summary>
    public const string ReadingKind = "reading";

    /// <summary>Kind of links that hold the heads of other chains.</summary>
    public const string HeadsKind = "heads";

    /// <summary>The key of a reading.</summary>
    /// <param name="sequence">Its place in the order of recording.</param>
    public static RecordKey Reading(long sequence) => new(ReadingKind, "", sequence);

    /// <summary>In words, for example "reading 17" or "method \"film-25\" version 3".</summary>
    public override string ToString() => Name.Length == 0
        ? string.Create(CultureInfo.InvariantCulture, $"{Kind} {Number}")
        : Kind == HeadsKind
            ? string.Create(CultureInfo.InvariantCulture, $"heads of other chains, at {Name}:{Number}")
            : string.Create(CultureInfo.InvariantCulture, $"{Kind} \"{Name}\" version {Number}");
}

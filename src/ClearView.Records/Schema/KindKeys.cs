using ClearView.Records.Model;

namespace ClearView.Records.Schema;

/// <summary>Kinds of documents as they stand in the tables.</summary>
internal static class KindKeys
{
    // Written out, so that a table tells its kinds to whoever opens it, and a renamed member does not change it.

    /// <summary>The text of a kind.</summary>
    public static string Of(VersionedKind kind) => kind switch
    {
        VersionedKind.Method => "method",
        VersionedKind.Specification => "specification",
        VersionedKind.Reference => "reference",
        VersionedKind.ControlChart => "control chart",
        VersionedKind.Key => "key",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "expected a kind of document."),
    };
}

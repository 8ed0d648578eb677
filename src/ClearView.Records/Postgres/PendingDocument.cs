using ClearView.Records.Model;
using ClearView.Records.Writing;

namespace ClearView.Records.Postgres;

/// <summary>A document that waits for the writer.</summary>
/// <param name="kind">Its kind.</param>
/// <param name="entry">The document, with a buffer of its own.</param>
internal sealed class PendingDocument(VersionedKind kind, VersionedEntry entry) : Promise<StoreVersionOutcome>
{
    /// <summary>Its kind.</summary>
    public VersionedKind Kind => kind;

    /// <summary>The document.</summary>
    public VersionedEntry Entry => entry;
}

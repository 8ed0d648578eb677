using ClearView.Records.Model;
using ClearView.Records.Writing;

namespace ClearView.Records.Postgres;

/// <summary>A reading that waits for the writer.</summary>
/// <param name="entry">The reading, with buffers of its own.</param>
internal sealed class PendingReading(ReadingEntry entry) : Promise<AppendOutcome>
{
    /// <summary>The reading.</summary>
    public ReadingEntry Entry => entry;
}

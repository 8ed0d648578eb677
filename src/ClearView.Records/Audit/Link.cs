namespace ClearView.Records.Audit;

/// <summary>One link of a chain: it holds one record, and through the hash before it every earlier link.</summary>
/// <param name="Chain">Number of the chain, from 1.</param>
/// <param name="Position">Place in the chain, from 1, without gaps.</param>
/// <param name="Record">The record.</param>
/// <param name="RecordHash">SHA-256 of the record's canonical bytes, 32 bytes.</param>
/// <param name="Hash">SHA-256 over the link before and this one, 32 bytes; see <see cref="LinkHash"/>.</param>
/// <param name="Covers">Heads of the other chains where the record is of kind "heads"; empty otherwise.</param>
public sealed record Link(
    long Chain, long Position, RecordKey Record, ReadOnlyMemory<byte> RecordHash, ReadOnlyMemory<byte> Hash, ReadOnlyMemory<byte> Covers)
{
    /// <summary>The link as the head of its chain.</summary>
    public ChainHead Head => new(Chain, Position, Convert.ToHexStringLower(Hash.Span));
}

namespace ClearView.Records.Audit;

/// <summary>A link with the hash of the link before it, so that its own hash can be computed again.</summary>
/// <param name="Link">The link.</param>
/// <param name="PreviousHash">Hash of the link before it; <see cref="LinkHash.BeforeFirst"/> for the first.</param>
public sealed record PlacedLink(Link Link, ReadOnlyMemory<byte> PreviousHash);

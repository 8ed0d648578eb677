namespace ClearView.Records.Model;

/// <summary>A document that is on durable storage. It never changes.</summary>
/// <param name="Entry">The document as it was handed in.</param>
/// <param name="Version">Its version, counted from 1 within its name.</param>
/// <param name="StoredAt">When the store took it, UTC, to 100 ns.</param>
public sealed record StoredVersion(VersionedEntry Entry, long Version, DateTimeOffset StoredAt);

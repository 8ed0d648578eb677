namespace ClearView.Records.Model;

/// <summary>A method that is on durable storage. It never changes.</summary>
/// <param name="Entry">The method as it was handed in.</param>
/// <param name="Version">Its version, counted from 1 within its name.</param>
/// <param name="StoredAt">When the store took it, UTC, to 100 ns.</param>
public sealed record StoredMethod(MethodEntry Entry, long Version, DateTimeOffset StoredAt);

using System.Collections.Immutable;

namespace ClearView.Records.Model;

/// <summary>A page of readings in the order of recording.</summary>
/// <param name="Readings">The readings; there may be none although more follow, where filters pass over many.</param>
/// <param name="Through">Everything up to this place was looked at, and nothing will be added there.</param>
/// <param name="HasMore">Whether places behind it can be listed already.</param>
public sealed record RecordedPage(ImmutableArray<StoredReading> Readings, long Through, bool HasMore);

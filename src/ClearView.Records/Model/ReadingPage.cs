using System.Collections.Immutable;

namespace ClearView.Records.Model;

/// <summary>A page of a list.</summary>
/// <param name="Readings">The readings, in the order asked for.</param>
/// <param name="HasMore">Whether more readings follow the last one here.</param>
public sealed record ReadingPage(ImmutableArray<StoredReading> Readings, bool HasMore);

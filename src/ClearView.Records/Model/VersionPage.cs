using System.Collections.Immutable;

namespace ClearView.Records.Model;

/// <summary>A page of a list of documents.</summary>
/// <param name="Versions">The documents, by name and version.</param>
/// <param name="HasMore">Whether more documents follow the last one here.</param>
public sealed record VersionPage(ImmutableArray<StoredVersion> Versions, bool HasMore);

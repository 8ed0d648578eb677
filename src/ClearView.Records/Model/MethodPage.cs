using System.Collections.Immutable;

namespace ClearView.Records.Model;

/// <summary>A page of a list of methods.</summary>
/// <param name="Methods">The methods, by name and version.</param>
/// <param name="HasMore">Whether more methods follow the last one here.</param>
public sealed record MethodPage(ImmutableArray<StoredMethod> Methods, bool HasMore);

using System.Collections.Immutable;

namespace ClearView.Quality.Specifications;

/// <summary>A specification as somebody wrote it, not yet checked.</summary>
public sealed record SpecificationDraft
{
    /// <summary>Product that it is for: a film or a bottle.</summary>
    public string Product { get; init; } = "";

    /// <summary>Version, 1 or more.</summary>
    public int Version { get; init; } = 1;

    /// <summary>Name of the method under which the values are evaluated.</summary>
    public string MethodName { get; init; } = "";

    /// <summary>Version of that method, 1 or more.</summary>
    public int MethodVersion { get; init; } = 1;

    /// <summary>Number of specimens that the judged means rest on, 1 or more.</summary>
    public int RequiredSpecimens { get; init; } = 1;

    /// <summary>The limits.</summary>
    public ImmutableArray<LimitDraft> Limits { get; init; } = [];
}

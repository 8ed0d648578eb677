using System.Collections.Immutable;

namespace ClearView.Quality.Specifications;

/// <summary>What a product must meet: limits on measurands under one named method.</summary>
/// <remarks>Immutable: a change is a new version. Made by <see cref="SpecificationCheck.Of"/> only, so that every instance can stand.</remarks>
public sealed class Specification
{
    internal Specification(
        string product, int version, string methodName, int methodVersion, int requiredSpecimens, ImmutableArray<SpecificationLimit> limits)
    {
        Product = product;
        Version = version;
        MethodName = methodName;
        MethodVersion = methodVersion;
        RequiredSpecimens = requiredSpecimens;
        Limits = limits;
    }

    /// <summary>Product that it is for.</summary>
    public string Product { get; }

    /// <summary>Version, 1 or more.</summary>
    public int Version { get; }

    /// <summary>Name of the method under which the values are evaluated.</summary>
    public string MethodName { get; }

    /// <summary>Version of that method.</summary>
    public int MethodVersion { get; }

    /// <summary>Number of specimens that the judged means rest on.</summary>
    public int RequiredSpecimens { get; }

    /// <summary>The limits, one or more, each measurand once.</summary>
    public ImmutableArray<SpecificationLimit> Limits { get; }

    /// <summary>Product and version.</summary>
    public override string ToString() => FormattableString.Invariant($"{Product}, version {Version}");
}

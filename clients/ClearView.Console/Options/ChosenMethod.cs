using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The method that a command line states.</summary>
/// <param name="Method">The method itself.</param>
/// <param name="Source">The named method that it is, unaltered; <see langword="null"/> where options changed or stated it.</param>
internal sealed record ChosenMethod(Method Method, NamedMethod? Source)
{
    /// <summary>Name and version of a method that a server keeps; <see langword="null"/> for every other, built-in ones too.</summary>
    public MethodName? StoredName => Source is { BuiltIn: false } stored ? stored.MethodName : null;
}

using ClearView.V1;

namespace ClearView.Contract.Methods;

/// <summary>A method under a name that every client and server knows.</summary>
/// <param name="Name">The name, for example "astm".</param>
/// <param name="Description">What it stands for, in a line.</param>
/// <param name="Method">The method; callers that change it clone it first.</param>
public sealed record BuiltInMethod(string Name, string Description, Method Method)
{
    /// <summary>Its version. It would count up if what the name stands for ever changed.</summary>
    public uint Version { get; init; } = 1;

    /// <summary>The method with its name, as the catalogue gives it.</summary>
    public NamedMethod ToNamedMethod() => new()
    {
        MethodName = new MethodName { Name = Name, Version = Version },
        Description = Description,
        Method = Method.Clone(),
        BuiltIn = true,
    };
}

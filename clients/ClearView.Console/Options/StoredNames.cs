using ClearView.Console.Commands;
using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>Reads NAME or NAME@VERSION of what a server keeps; the names all follow one form.</summary>
internal static class StoredNames
{
    /// <summary>A specification's name; <see langword="null"/> where it is none.</summary>
    public static SpecificationName? Specification(string text) =>
        MethodOptions.ParseName(text) is { } name ? new SpecificationName { Name = name.Name, Version = name.Version } : null;

    /// <summary>A reference's name; <see langword="null"/> where it is none.</summary>
    public static ReferenceName? Reference(string text) =>
        MethodOptions.ParseName(text) is { } name ? new ReferenceName { Name = name.Name, Version = name.Version } : null;

    /// <summary>A control chart's name; <see langword="null"/> where it is none.</summary>
    public static ControlChartName? Chart(string text) =>
        MethodOptions.ParseName(text) is { } name ? new ControlChartName { Name = name.Name, Version = name.Version } : null;

    /// <summary>Refuses a name that cannot be stored under, or that carries a version.</summary>
    /// <param name="name">What was given.</param>
    /// <param name="what">What is stored, for example "specification".</param>
    /// <exception cref="UsageException">It is none.</exception>
    public static void CheckNew(string name, string what)
    {
        if (MethodOptions.ParseName(name) is not { Version: 0 })
        {
            throw new UsageException($"\"{name}\" cannot be a {what}'s name; write a-z, digits, \"-\" and \".\", beginning with a letter, without a version");
        }
    }
}

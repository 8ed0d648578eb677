using System.CommandLine;

using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>Options that state one part of a method.</summary>
internal interface IMethodPart
{
    /// <summary>What the part is about, as it stands above its options in the help.</summary>
    string Heading { get; }

    /// <summary>The options, in the order of the help.</summary>
    IReadOnlyList<Option> Options { get; }

    /// <summary>Puts what was stated into a method, in place of what it held.</summary>
    /// <exception cref="Commands.UsageException">What was stated does not go together.</exception>
    void Apply(ParseResult parsed, Method method);
}

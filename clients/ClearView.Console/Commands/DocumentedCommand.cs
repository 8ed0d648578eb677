using System.Collections.Immutable;
using System.CommandLine;

namespace ClearView.Console.Commands;

/// <summary>A command whose help shows how it is used.</summary>
/// <param name="name">Name on the command line.</param>
/// <param name="description">What it does.</param>
/// <param name="examples">Whole lines to try, each beginning with "clearview".</param>
internal abstract class DocumentedCommand(string name, string description, ImmutableArray<string> examples) : Command(name, description)
{
    /// <summary>Whole lines to try.</summary>
    public ImmutableArray<string> Examples { get; } = examples;
}

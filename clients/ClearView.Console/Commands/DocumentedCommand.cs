using System.Collections.Immutable;
using System.CommandLine;

namespace ClearView.Console.Commands;

/// <summary>A command whose help shows how it is used.</summary>
/// <param name="name">Name on the command line.</param>
/// <param name="description">What it does.</param>
/// <param name="examples">Whole lines to try, each beginning with "clearview"; one that goes on in the next line ends with "\".</param>
internal abstract class DocumentedCommand(string name, string description, ImmutableArray<string> examples) : Command(name, description)
{
    private readonly Dictionary<string, string> _groups = new(StringComparer.Ordinal);

    /// <summary>Whole lines to try.</summary>
    public ImmutableArray<string> Examples { get; } = examples;

    /// <summary>Headings of the help, each by the name of the option that it stands above.</summary>
    public IReadOnlyDictionary<string, string> Groups => _groups;

    /// <summary>Begins a group of options: in the help, its heading stands above this option.</summary>
    public void BeginGroup(string heading, Option first) => _groups[first.Name] = heading;
}

using System.CommandLine;
using System.CommandLine.Parsing;

namespace ClearView.Console.Options;

/// <summary>The option that asks for JSON.</summary>
internal sealed class JsonOption
{
    private readonly Option<bool> _json = new("--json") { Description = "Write JSON to the standard output, in full precision, for scripts." };

    /// <summary>Adds the option to a command.</summary>
    public void AddTo(Command command) => command.Add(_json);

    /// <summary>Whether JSON was asked for.</summary>
    public bool IsGiven(ParseResult parsed) => parsed.GetValue(_json);

    /// <summary>The same, while the command line is still being checked.</summary>
    public bool IsGiven(SymbolResult result) => result.GetValue(_json);
}

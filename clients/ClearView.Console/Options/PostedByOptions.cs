using System.CommandLine;

using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The options that say who posts readings and from where.</summary>
internal sealed class PostedByOptions
{
    private readonly Option<string?> _person = new("--person") { HelpName = "NAME", Description = "Who posts; stored with each reading." };
    private readonly Option<string?> _station = new("--station")
    {
        HelpName = "NAME",
        Description = "Where it is posted from; stored with each reading. [default: the name of this computer]",
    };

    /// <summary>Adds the options to a command.</summary>
    /// <returns>The first of them.</returns>
    public Option AddTo(Command command)
    {
        command.Add(_person);
        command.Add(_station);
        return _person;
    }

    /// <summary>What they say, with name and version of this program.</summary>
    public Origin Resolve(ParseResult parsed) => new()
    {
        Person = parsed.GetValue(_person) ?? "",
        Station = parsed.GetValue(_station) ?? Environment.MachineName,
        ClientSoftware = "clearview " + ProgramVersion.Text,
    };
}

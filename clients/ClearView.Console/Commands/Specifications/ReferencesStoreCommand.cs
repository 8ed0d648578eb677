using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;

using Spectre.Console;

namespace ClearView.Console.Commands.Specifications;

/// <summary>Stores the colour of a stored reading as a reference under a name.</summary>
internal sealed class ReferencesStoreCommand : DocumentedCommand
{
    private readonly Argument<string> _name = new("name") { HelpName = "NAME", Description = "Name to store it under: a-z, digits, \"-\" and \".\", up to 60 characters." };
    private readonly Argument<string> _id = new("id") { HelpName = "READING-ID", Description = "The reading's identifier, as post and list show it." };
    private readonly Option<string> _description = new("--description") { HelpName = "TEXT", Required = true, Description = "What the reference is, in a line." };
    private readonly Option<string> _by = new("--by") { HelpName = "NAME", Required = true, Description = "Who stores it." };
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public ReferencesStoreCommand(Screen screen)
        : base("store", "Store the colour of a stored reading as a reference under a name, as its next version.",
        [
            "clearview references store m 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11 --description Master --by QA",
            "clearview references store m 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11 --description Master --by QA --json",
        ])
    {
        _screen = screen;
        Add(_name);
        Add(_id);
        Add(_description);
        Add(_by);
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var name = parsed.GetRequiredValue(_name);
        StoredNames.CheckNew(name, "reference");
        var id = ShowCommand.ReadId(parsed.GetRequiredValue(_id));
        await using var client = _server.Connect(parsed);
        var response = await client.StoreReferenceAsync(name, parsed.GetRequiredValue(_description), id, parsed.GetRequiredValue(_by), cancellation);
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, JsonText.OfMessage(response)!);
            return ExitCode.Ok;
        }
        SpecificationScreen.Write(_screen, response.Reference);
        _screen.Line();
        _screen.Line(response.AlreadyStored
            ? "The newest version held the same already: nothing was stored."
            : $"Stored as {Markup.Escape(DecisionText.Versioned(response.Reference.ReferenceName.Name, response.Reference.ReferenceName.Version))}.");
        return ExitCode.Ok;
    }
}

using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;

using Spectre.Console;

namespace ClearView.Console.Commands.Specifications;

/// <summary>Stores a specification under a name.</summary>
internal sealed class SpecificationsStoreCommand : DocumentedCommand
{
    private readonly Argument<string> _name = new("name") { HelpName = "NAME", Description = "Name to store it under: a-z, digits, \"-\" and \".\", up to 60 characters." };
    private readonly Option<string> _description = new("--description") { HelpName = "TEXT", Required = true, Description = "What the specification is for, in a line." };
    private readonly Option<string> _by = new("--by") { HelpName = "NAME", Required = true, Description = "Who stores it." };
    private readonly SpecificationOptions _specification = new();
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public SpecificationsStoreCommand(Screen screen)
        : base("store", "Store a specification on the server under a name, as its next version. Versions are never changed.",
        [
            "clearview specifications store lidding-38 --file lidding-38.json --description \"Lidding film\" --by QA",
            "clearview specifications store pet-05 --product \"PET 0.5 l\" --kind bottle --method line-3 --specimens 6\n"
                + "      --limit \"haze 1..3 target 2\" --limit \"luminous_transmittance>=88\" --rule guarded\n"
                + "      --description \"Clear bottle, 0.5 l\" --by QA",
        ])
    {
        _screen = screen;
        Add(_name);
        BeginGroup("Name", _description);
        Add(_description);
        Add(_by);
        BeginGroup("Specification", _specification.AddTo(this));
        BeginGroup("Server and output", _server.AddTo(this));
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var name = parsed.GetRequiredValue(_name);
        StoredNames.CheckNew(name, "specification");
        var specification = _specification.Resolve(parsed);
        await using var client = _server.Connect(parsed);
        var response = await client.StoreSpecificationAsync(name, parsed.GetRequiredValue(_description), specification, parsed.GetRequiredValue(_by), cancellation);
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, JsonText.OfMessage(response)!);
            return ExitCode.Ok;
        }
        SpecificationScreen.Write(_screen, response.Specification);
        _screen.Line(response.AlreadyStored
            ? "The newest version held the same already: nothing was stored."
            : $"Stored as {Markup.Escape(DecisionText.Name(response.Specification.SpecificationName))}.");
        return ExitCode.Ok;
    }
}

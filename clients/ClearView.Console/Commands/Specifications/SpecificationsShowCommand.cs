using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;

namespace ClearView.Console.Commands.Specifications;

/// <summary>Shows one specification in full.</summary>
internal sealed class SpecificationsShowCommand : DocumentedCommand
{
    private readonly Argument<string> _name = new("name") { HelpName = "NAME[@VERSION]", Description = "The specification's name; the newest version unless one is given." };
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public SpecificationsShowCommand(Screen screen)
        : base("show", "Show one specification in full; its JSON is a file that judge takes.",
        [
            "clearview specifications show lidding-38",
            "clearview specifications show lidding-38@2 --json",
        ])
    {
        _screen = screen;
        Add(_name);
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var text = parsed.GetRequiredValue(_name);
        var name = StoredNames.Specification(text)
            ?? throw new UsageException($"\"{text}\" is not a specification's name; write NAME or NAME@VERSION, for example lidding-38");
        await using var client = _server.Connect(parsed);
        var specification = await client.GetSpecificationAsync(name, cancellation);
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, JsonText.OfMessage(specification)!);
        }
        else
        {
            SpecificationScreen.Write(_screen, specification);
        }
        return ExitCode.Ok;
    }
}

using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;

namespace ClearView.Console.Commands.Specifications;

/// <summary>Shows one reference in full.</summary>
internal sealed class ReferencesShowCommand : DocumentedCommand
{
    private readonly Argument<string> _name = new("name") { HelpName = "NAME[@VERSION]", Description = "The reference's name; the newest version unless one is given." };
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public ReferencesShowCommand(Screen screen)
        : base("show", "Show one reference in full.",
        [
            "clearview references show pet-master",
            "clearview references show pet-master@2 --json",
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
        var name = StoredNames.Reference(text)
            ?? throw new UsageException($"\"{text}\" is not a reference's name; write NAME or NAME@VERSION, for example pet-master");
        await using var client = _server.Connect(parsed);
        var reference = await client.GetReferenceAsync(name, cancellation);
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, JsonText.OfMessage(reference)!);
        }
        else
        {
            SpecificationScreen.Write(_screen, reference);
        }
        return ExitCode.Ok;
    }
}

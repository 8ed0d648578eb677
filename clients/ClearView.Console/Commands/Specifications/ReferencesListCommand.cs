using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.V1;

namespace ClearView.Console.Commands.Specifications;

/// <summary>Lists stored references.</summary>
internal sealed class ReferencesListCommand : DocumentedCommand
{
    private readonly Option<bool> _allVersions = new("--all-versions") { Description = "List every version instead of the newest." };
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public ReferencesListCommand(Screen screen)
        : base("list", "List stored references by name.",
        [
            "clearview references list",
            "clearview references list --all-versions --json",
        ])
    {
        _screen = screen;
        Add(_allVersions);
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var references = new List<NamedReference>();
        await using var client = _server.Connect(parsed);
        await foreach (var reference in client.ListReferencesAsync(parsed.GetValue(_allVersions), cancellation))
        {
            references.Add(reference);
        }
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, new JsonObject { ["references"] = new JsonArray([.. references.Select(JsonText.OfMessage)]) });
        }
        else
        {
            SpecificationScreen.WriteList(_screen, references);
        }
        return ExitCode.Ok;
    }
}

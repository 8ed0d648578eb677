using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.V1;

namespace ClearView.Console.Commands.Specifications;

/// <summary>Lists stored specifications.</summary>
internal sealed class SpecificationsListCommand : DocumentedCommand
{
    private readonly Option<bool> _allVersions = new("--all-versions") { Description = "List every version instead of the newest." };
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public SpecificationsListCommand(Screen screen)
        : base("list", "List stored specifications by name.",
        [
            "clearview specifications list",
            "clearview specifications list --all-versions --json",
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
        var specifications = new List<NamedSpecification>();
        await using var client = _server.Connect(parsed);
        await foreach (var specification in client.ListSpecificationsAsync(parsed.GetValue(_allVersions), cancellation))
        {
            specifications.Add(specification);
        }
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, new JsonObject { ["specifications"] = new JsonArray([.. specifications.Select(JsonText.OfMessage)]) });
        }
        else
        {
            SpecificationScreen.WriteList(_screen, specifications);
        }
        return ExitCode.Ok;
    }
}

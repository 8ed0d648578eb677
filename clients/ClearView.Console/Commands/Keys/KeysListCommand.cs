using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Console.Options;
using ClearView.Console.Rendering;

namespace ClearView.Console.Commands.Keys;

/// <summary>Lists keys.</summary>
internal sealed class KeysListCommand : DocumentedCommand
{
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public KeysListCommand(Screen screen)
        : base("list", "List every key with its state, also those that are expired or revoked. Secrets are kept nowhere.",
        [
            "clearview keys list --key-file admin.key",
            "clearview keys list --key-file admin.key --server https://clearview.plant:5180 --json",
        ])
    {
        _screen = screen;
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        await using var client = _server.Connect(parsed);
        var keys = await client.ListKeysAsync(cancellation);
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, new JsonObject { ["keys"] = new JsonArray([.. keys.Select(key => JsonText.OfMessage(key))]) });
        }
        else
        {
            KeyScreen.WriteList(_screen, keys);
        }
        return ExitCode.Ok;
    }
}

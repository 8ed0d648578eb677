using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;

using Spectre.Console;

namespace ClearView.Console.Commands.Keys;

/// <summary>Revokes a key.</summary>
internal sealed class KeysRevokeCommand : DocumentedCommand
{
    private readonly Argument<string> _name = new("name") { HelpName = "NAME", Description = "Its name." };
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public KeysRevokeCommand(Screen screen)
        : base("revoke", "Revoke a key for good. Every server refuses it within a few seconds.",
        [
            "clearview keys revoke line-3 --key-file admin.key",
            "clearview keys revoke arden --key-file admin.key --server https://clearview.plant:5180",
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
        await using var client = _server.Connect(parsed);
        var key = await client.RevokeKeyAsync(parsed.GetRequiredValue(_name), cancellation);
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, JsonText.OfMessage(key)!);
            return ExitCode.Ok;
        }
        KeyScreen.Write(_screen, key);
        _screen.Line($"{Markup.Escape(key.Name)} is revoked for good.");
        return ExitCode.Ok;
    }
}

using System.CommandLine;

using ClearView.Console.Commands.Records;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Records.Model;
using ClearView.Server.Security;

namespace ClearView.Console.Commands.Keys;

/// <summary>Makes the first administrator's key in the store itself.</summary>
internal sealed class KeysBootstrapCommand : DocumentedCommand
{
    private readonly StoreOption _store = new(
        "The store, as the server names it: a file, or postgres://USER@HOST:PORT/DATABASE. A server may be running on it.", isRequired: true);

    private readonly Option<bool> _newStore = new("--new-store") { Description = "Make the file of the store where there is none; without it such a name is an error." };

    private readonly SecretFileOption _out = new();
    private readonly JsonOption _json = new();
    private readonly Screen _screen;
    private readonly TimeProvider _clock;

    /// <summary>Creates the command.</summary>
    public KeysBootstrapCommand(Screen screen, TimeProvider clock)
        : base("bootstrap", "Make the first administrator's key, in the store itself. Refused while an administrator has a key that opens.",
        [
            "clearview keys bootstrap --store line3.db --out admin.key",
            "clearview keys bootstrap --store line3.db --new-store --out admin.key",
            "clearview keys bootstrap --store postgres://clearview@db.plant/line3",
        ])
    {
        _screen = screen;
        _clock = clock;
        _store.AddTo(this);
        Add(_newStore);
        _out.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var name = _store.Resolve(parsed);
        if (!parsed.GetValue(_newStore) && StoreOpening.IsMissing(name))
        {
            throw new UsageException($"{name} does not exist; name the file that the server uses, or add --new-store to make it");
        }
        SecretFile? file = null;
        try
        {
            file = _out.Open(parsed);
            await using var store = await StoreName.OpenAsync(name, _store.PasswordFile(parsed), _clock, cancellation);

            // The secret is durable before the key is stored: a key whose secret is lost would shut the next attempt out.
            var made = await FirstKey.TryCreateAsync(store, _clock, secret => file?.Write(secret), cancellation);
            if (made is null)
            {
                _screen.Error("an administrator has a key that opens; let that administrator make further ones with: clearview keys create");
                return ExitCode.BadInput;
            }
            KeyScreen.WriteMade(_screen, made, file?.Path, _json.IsGiven(parsed));
            return ExitCode.Ok;
        }
        catch (Exception error) when (error is StoreFormatException or FormatException or IOException or UnauthorizedAccessException)
        {
            throw new UsageException(error.Message);
        }
        catch (StoreUnavailableException error)
        {
            _screen.Error(error.Message);
            if (file is { IsWritten: true })
            {
                _screen.Hint($"it is not known whether the key was stored; its secret is in {file.Path}. See with it: clearview keys list");
            }
            return ExitCode.ServerFault;
        }
        finally
        {
            file?.Dispose();
        }
    }
}

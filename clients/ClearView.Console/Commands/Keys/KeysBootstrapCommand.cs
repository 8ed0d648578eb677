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
    private readonly Option<string> _store = new("--store")
    {
        HelpName = "STORE",
        Required = true,
        Description = "The store, as the server names it: a file, or postgres://USER@HOST:PORT/DATABASE. A server may be running on it.",
    };

    private readonly Option<string?> _passwordFile = new("--password-file")
    {
        HelpName = "FILE",
        Description = "File whose first line is the password of the database. [default: PGPASSWORD]",
    };

    private readonly SecretFileOption _out = new();
    private readonly JsonOption _json = new();
    private readonly Screen _screen;
    private readonly TimeProvider _clock;

    /// <summary>Creates the command.</summary>
    public KeysBootstrapCommand(Screen screen, TimeProvider clock)
        : base("bootstrap", "Make the first administrator's key, in the store itself. Refused while an administrator has a key that opens.",
        [
            "clearview keys bootstrap --store line3.db --out admin.key",
            "clearview keys bootstrap --store postgres://clearview@db.plant/line3",
        ])
    {
        _screen = screen;
        _clock = clock;
        Add(_store);
        Add(_passwordFile);
        _out.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        try
        {
            using var file = _out.Open(parsed);
            await using var store = await StoreName.OpenAsync(parsed.GetRequiredValue(_store), parsed.GetValue(_passwordFile), _clock, cancellation);
            var made = await FirstKey.TryCreateAsync(store, _clock, cancellation);
            if (made is null)
            {
                _screen.Error("an administrator has a key that opens; let that administrator make further ones with: clearview keys create");
                return ExitCode.BadInput;
            }
            file?.Write(made.Secret);
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
            return ExitCode.ServerFault;
        }
    }
}

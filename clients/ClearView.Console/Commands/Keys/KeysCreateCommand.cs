using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Commands.Keys;

/// <summary>Makes a key.</summary>
internal sealed class KeysCreateCommand : DocumentedCommand
{
    private readonly Argument<string> _name = new("name") { HelpName = "NAME", Description = "Its name, never used before: a-z, digits, \"-\" and \".\", up to 60 characters." };
    private readonly Option<string> _role = new("--role") { HelpName = "ROLE", Required = true, Description = "What it may do: line, engineer, lab or administrator." };
    private readonly Option<string[]> _stations = new("--station") { HelpName = "LINE", Description = "A production line that it may post for and read, exactly; repeatable. Only with --role line." };
    private readonly Option<string> _description = new("--description") { HelpName = "TEXT", Required = true, Description = "What it is for, in a line." };
    private readonly Option<bool> _byCertificate = new("--by-certificate") { Description = "Its holder shows a client certificate with this name as its common name; no secret is made." };
    private readonly TimeOption _expires = new("--expires", "When its time is over, within ten years. [default: 365 days from now]");
    private readonly SecretFileOption _out = new();
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public KeysCreateCommand(Screen screen)
        : base("create", "Make a key. Its secret is shown once, and kept nowhere.",
        [
            "clearview keys create line-3 --role line --station \"line 3\" --description \"Line 3\" \\\n--out line-3.key --key-file admin.key",
            "clearview keys create arden --role lab --description \"M. Arden\" --expires 2027-01-31",
            "clearview keys create line-4 --role line --station \"line 4\" --description \"Line 4\" \\\n--by-certificate",
        ])
    {
        _screen = screen;
        _role.AcceptOnlyFromAmong("line", "engineer", "lab", "administrator");
        Add(_name);
        BeginGroup("Key", _role);
        Add(_role);
        Add(_stations);
        Add(_description);
        Add(_byCertificate);
        _expires.AddTo(this);
        _out.AddTo(this);
        BeginGroup("Server and output", _server.AddTo(this));
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var request = new CreateKeyRequest
        {
            Name = parsed.GetRequiredValue(_name),
            Role = parsed.GetRequiredValue(_role) switch
            {
                "line" => Role.Line,
                "engineer" => Role.Engineer,
                "lab" => Role.Lab,
                _ => Role.Administrator,
            },
            Stations = { parsed.GetValue(_stations) ?? [] },
            Description = parsed.GetRequiredValue(_description),
            ByCertificate = parsed.GetValue(_byCertificate),
            ExpiresAt = _expires.Resolve(parsed),
        };
        try
        {
            // Before the call: a secret that cannot be written anywhere is lost.
            using var file = request.ByCertificate ? null : _out.Open(parsed);
            await using var client = _server.Connect(parsed);
            var made = await client.CreateKeyAsync(request, cancellation);
            file?.Write(made.Secret);
            KeyScreen.WriteMade(_screen, made, file?.Path, _json.IsGiven(parsed));
            return ExitCode.Ok;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new UsageException(error.Message);
        }
    }
}

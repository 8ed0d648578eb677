using System.CommandLine;

using ClearView.Client;
using ClearView.Console.Rendering;
using ClearView.Server;

namespace ClearView.Console.Commands;

/// <summary>Runs the server in this process until it is stopped.</summary>
internal sealed class ServeCommand : DocumentedCommand
{
    private readonly Option<string?>[] _flags =
    [
        new("--listen") { HelpName = "ADDRESS", Description = $"Address and port; port 0 takes a free one. Beyond this machine it needs a certificate and keys. [default: {ServerAddresses.Default}]" },
        new("--store") { HelpName = "STORE", Description = "File of the store, created where it is missing, or postgres://USER@HOST:PORT/DATABASE. [default: clearview.db]" },
        new("--store-password-file") { HelpName = "FILE", Description = "File whose first line is the password of the database. [default: PGPASSWORD]" },
        new("--audit-key-file") { HelpName = "FILE", Description = "Private key that signs extracts for auditors (PEM, ECDSA on P-256; docs/audit.md)." },
        new("--certificate") { HelpName = "FILE", Description = "The server's certificate and those above it, PEM or PKCS #12; calls are then encrypted. Read again when it changes." },
        new("--certificate-key") { HelpName = "FILE", Description = "The private key, PEM. [default: in the certificate's file]" },
        new("--certificate-password-file") { HelpName = "FILE", Description = "File whose first line is the password of the private key." },
        new("--client-certificate-authorities") { HelpName = "FILE", Description = "Authorities whose client certificates are accepted, PEM." },
        new("--access") { HelpName = "WHO", Description = "Who may call: open (everybody on this machine) or keys. [default: open]" },
        new("--key-requests-per-second") { HelpName = "NUMBER", Description = "Calls of one key per second, on average. [default: 1000]" },
        new("--key-streams") { HelpName = "NUMBER", Description = "Open streams of one key, and as many watches beside them. [default: 32]" },
        new("--post-room-bytes") { HelpName = "BYTES", Description = "Bytes of posts that are taken before they are recorded; further ones wait. [default: 268435456]" },
        new("--shutdown-timeout") { HelpName = "SECONDS", Description = "How long calls in flight may take to finish at the end. [default: 30]" },
        new("--log-level") { HelpName = "LEVEL", Description = "Least severe log line: trace, debug, information, warning, error, critical, none. [default: information]" },
        new("--log-format") { HelpName = "FORMAT", Description = "Form of the log lines: text or json. [default: text]" },
        new("--config") { HelpName = "FILE", Description = "Configuration file. [default: clearview.json where it exists]" },
    ];

    /// <summary>Creates the command.</summary>
    public ServeCommand(Screen screen)
        : base("serve", "Run a server on this machine until it is stopped with Ctrl-C.",
        [
            "clearview serve",
            "clearview serve --store line3.db --listen 127.0.0.1:5181",
            "clearview serve --config clearview.json --log-format json",
        ])
    {
        foreach (var flag in _flags)
        {
            Add(flag);
        }
        SetAction((parsed, cancellation) => ServerProgram.RunAsync(
            [.. _flags.SelectMany(flag => parsed.GetValue(flag) is { } value ? new[] { flag.Name, value } : [])],
            screen.Output,
            screen.Errors,
            cancellation));
    }
}

using System.CommandLine;

using ClearView.Console.Rendering;
using ClearView.Server.Extracts;

namespace ClearView.Console.Commands.Audit;

/// <summary>Checks an extract without a server.</summary>
internal sealed class AuditCheckCommand : DocumentedCommand
{
    private readonly Argument<string> _file = new("FILE") { Description = "The extract, as \"audit extract\" wrote it." };
    private readonly Option<string> _publicKey = new("--public-key")
    {
        HelpName = "FILE",
        Required = true,
        Description = "Public key of the server, PEM; get it from the plant on another way than the extract. Required.",
    };

    private readonly Option<string?> _signature = new("--signature") { HelpName = "FILE", Description = "The signature. [default: the extract's name with .sig]" };

    /// <summary>Creates the command.</summary>
    public AuditCheckCommand(Screen screen)
        : base("check", "Check an extract without a server: its signature, every record and every link; the exit code is 1 when one does not hold.",
        [
            "clearview audit check lot.json --public-key plant.pem",
            "clearview audit check lot.json --public-key plant.pem --signature lot.json.sig",
        ])
    {
        Add(_file);
        Add(_publicKey);
        Add(_signature);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(screen, parsed, cancellation)));
    }

    private async Task<int> RunAsync(Screen screen, ParseResult parsed, CancellationToken cancellation)
    {
        var path = parsed.GetRequiredValue(_file);
        try
        {
            var extract = await File.ReadAllBytesAsync(path, cancellation);
            var signature = await File.ReadAllBytesAsync(parsed.GetValue(_signature) ?? path + ".sig", cancellation);
            var key = await File.ReadAllTextAsync(parsed.GetRequiredValue(_publicKey), cancellation);
            var check = ExtractChecker.Check(extract, signature, key);
            screen.Output.Write(check.Fault is { } fault
                ? $"NOT AS IT WAS SIGNED OR RECORDED: {fault}.\n"
                : $"The extract holds: signature, {AuditText.Count(check.ReadingCount, "reading")}, {NumberText.Plain(check.SignalCount)} with signals, and the link of each.\n");
            return check.Fault is null ? ExitCode.Ok : ExitCode.LimitFailed;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new UsageException(error.Message);
        }
    }
}

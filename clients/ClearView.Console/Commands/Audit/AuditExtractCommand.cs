using System.CommandLine;
using System.Text;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Commands.Audit;

/// <summary>Fetches a signed extract for an auditor.</summary>
internal sealed class AuditExtractCommand : DocumentedCommand
{
    private readonly Option<string?> _lot = new("--lot") { HelpName = "TEXT", Description = "Only this lot, exactly." };
    private readonly Option<string?> _product = new("--product") { HelpName = "TEXT", Description = "Only this product, exactly." };
    private readonly Option<string?> _line = new("--line") { HelpName = "TEXT", Description = "Only this production line, exactly." };
    private readonly Option<string> _out = new("--out")
    {
        HelpName = "FILE",
        Required = true,
        Description = "Write the extract here, its signature to FILE.sig and the public key to FILE.pem; none may exist yet. Required.",
    };

    private readonly ServerOption _server = new(isOptional: false);

    /// <summary>Creates the command.</summary>
    public AuditExtractCommand(Screen screen)
        : base("extract", "Export the readings of a lot for an auditor, as a JSON file that the server signs.",
        [
            "clearview audit extract --lot L-2231 --out lot.json",
            "clearview audit extract --product \"clear lidding 38\" --line 3 --out line3.json",
        ])
    {
        Add(_lot);
        Add(_product);
        Add(_line);
        Add(_out);
        _server.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(screen, parsed, cancellation)));
    }

    private async Task<int> RunAsync(Screen screen, ParseResult parsed, CancellationToken cancellation)
    {
        var request = new ExportExtractRequest
        {
            Lot = parsed.GetValue(_lot) ?? "",
            Product = parsed.GetValue(_product) ?? "",
            Line = parsed.GetValue(_line) ?? "",
        };
        if (request.Lot.Length + request.Product.Length + request.Line.Length == 0)
        {
            throw new UsageException("name at least one of --lot, --product and --line");
        }
        var path = parsed.GetRequiredValue(_out);
        await using var client = _server.Connect(parsed);
        try
        {
            // An extract that was handed over is evidence: nothing of it is written over, and one that broke off gets no name.
            using var extract = new NewFile(path);
            using var signatureFile = new NewFile(path + ".sig");
            using var publicKey = new NewFile(path + ".pem");
            var signature = await client.ExportExtractAsync(request, extract.Stream, cancellation);
            signatureFile.Stream.Write(signature.Signature.Span);
            publicKey.Stream.Write(Encoding.ASCII.GetBytes(signature.PublicKeyPem));
            publicKey.Complete();
            signatureFile.Complete();
            extract.Complete();
            screen.Output.Write($"{AuditText.Count(signature.ReadingCount, "reading")} written to {path}, signed in {path}.sig; the public key is in {path}.pem.\n");
            return ExitCode.Ok;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new UsageException($"{path} cannot be written: {error.Message}");
        }
    }
}

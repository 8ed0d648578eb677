using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Commands.Audit;

/// <summary>Verifies every chain.</summary>
internal sealed class AuditVerifyCommand : DocumentedCommand
{
    private readonly AuditSource _source = new();
    private readonly Option<string[]> _head = new("--head")
    {
        HelpName = "CHAIN:POSITION:HASH",
        Description = "A head that was noted earlier; the store must still have it. Repeat it for several.",
    };

    private readonly Option<string?> _heads = new("--heads")
    {
        HelpName = "FILE",
        Description = "A file of heads, as \"audit heads --out\" wrote it.",
    };

    private readonly JsonOption _json = new();

    /// <summary>Creates the command.</summary>
    public AuditVerifyCommand(Screen screen)
        : base("verify", "Compute the hash of every record and every link again; the exit code is 1 when one does not hold.",
        [
            "clearview audit verify --heads heads.txt",
            "clearview audit verify --store line3.db",
            "clearview audit verify --store postgres://clearview@db.plant/line3 --json",
        ])
    {
        Add(_head);
        Add(_heads);
        _source.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () =>
        {
            var noted = Noted(parsed);
            return _source.VerifyAsync(screen, parsed, noted, summary => Show(screen, parsed, summary, noted.Count), cancellation);
        }));
    }

    private List<ClearView.Records.Audit.ChainHead> Noted(ParseResult parsed) =>
    [
        .. (parsed.GetValue(_head) ?? []).Select(text => HeadsFile.Parse(text)),
        .. parsed.GetValue(_heads) is { } path ? HeadsFile.Read(path) : [],
    ];

    private int Show(Screen screen, ParseResult parsed, VerificationSummary summary, int noted)
    {
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(screen, new JsonObject { ["holds"] = summary.FirstBreak is null, ["verification"] = JsonText.OfMessage(summary) });
        }
        else
        {
            AuditText.Write(screen, summary, noted);
        }
        return summary.FirstBreak is null ? ExitCode.Ok : ExitCode.LimitFailed;
    }
}

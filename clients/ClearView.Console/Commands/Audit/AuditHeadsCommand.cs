using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Commands.Audit;

/// <summary>Gives the heads of the chains, to be noted elsewhere.</summary>
internal sealed class AuditHeadsCommand : DocumentedCommand
{
    private readonly AuditSource _source = new();
    private readonly Option<string?> _out = new("--out")
    {
        HelpName = "FILE",
        Description = "Write them to this file; keep it where nobody who can write to the store can reach it.",
    };

    private readonly JsonOption _json = new();

    /// <summary>Creates the command.</summary>
    public AuditHeadsCommand(Screen screen, TimeProvider clock)
        : base("heads", "Give the newest link of each chain, to be noted elsewhere.",
        [
            "clearview audit heads",
            "clearview audit heads --out heads.txt",
            "clearview audit heads --store line3.db",
        ])
    {
        Add(_out);
        _source.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(
            screen, () => _source.HeadsAsync(screen, parsed, heads => Show(screen, parsed, heads, clock), cancellation)));
    }

    private int Show(Screen screen, ParseResult parsed, IReadOnlyList<ChainHead> heads, TimeProvider clock)
    {
        if (parsed.GetValue(_out) is { } path)
        {
            HeadsFile.Write(path, "Heads of the chains at " + TimeText.Of(clock.GetUtcNow()), heads.Select(AuditText.Head));
        }
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(screen, new JsonObject { ["heads"] = new JsonArray([.. heads.Select(JsonText.OfMessage)]) });
        }
        else if (parsed.GetValue(_out) is { } written)
        {
            screen.Output.Write($"{AuditText.Count(heads.Count, "head")} written to {written}.\n");
        }
        else
        {
            screen.Output.Write(heads.Count == 0 ? "Nothing is recorded yet.\n" : string.Concat(heads.Select(head => AuditText.Head(head) + "\n")));
        }
        return ExitCode.Ok;
    }
}

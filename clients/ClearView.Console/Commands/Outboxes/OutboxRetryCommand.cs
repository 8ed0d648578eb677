using System.CommandLine;

using ClearView.Client.Outbox;
using ClearView.Console.Options;
using ClearView.Console.Rendering;

namespace ClearView.Console.Commands.Outboxes;

/// <summary>Sends refused readings again.</summary>
internal sealed class OutboxRetryCommand : DocumentedCommand
{
    private readonly OutboxOption _outbox = new();
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();

    /// <summary>Creates the command.</summary>
    public OutboxRetryCommand(Screen screen)
        : base("retry", "Send refused readings again, for example when the specification they name has been stored since.",
        [
            "clearview outbox retry",
            "clearview outbox retry --outbox line3 --server 127.0.0.1:5180",
        ])
    {
        _outbox.AddTo(this);
        _json.AddTo(this);
        _server.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(screen, parsed, cancellation)));
    }

    private async Task<int> RunAsync(Screen screen, ParseResult parsed, CancellationToken cancellation)
    {
        var folder = _outbox.Folder(parsed);
        var status = OutboxStatus.Read(folder);
        OutboxRetries.Request(folder);
        if (status.IsRunning)
        {
            screen.Note($"{VerdictText.Counted(status.Refused.Length, "reading")} given back to the poster that is running");
            return ExitCode.Ok;
        }
        var events = new OutboxScreen(screen, [], _json.IsGiven(parsed));
        var unreachable = "";
        await using var client = _server.Connect(parsed);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellation);
        using var outbox = ReadingOutbox.Open(folder, new OutboxOptions { LimitBytes = status.LimitBytes, LeastFreeBytes = status.LeastFreeBytes }, what =>
        {
            events.Write(what);
            if (what.Kind == OutboxEventKind.Waiting)
            {
                // Somebody waits for the answer: trying for hours is the poster's work.
                unreachable = what.Message;
                stop.Cancel();
            }
        });
        await new OutboxPump(outbox, new StreamReadingSender(client)).RunAsync(Task.CompletedTask, stop.Token);
        cancellation.ThrowIfCancellationRequested();
        if (unreachable.Length > 0)
        {
            screen.Error($"{unreachable}; the readings wait in the outbox");
            return ExitCode.ServerFault;
        }
        return events.ExitCode;
    }
}

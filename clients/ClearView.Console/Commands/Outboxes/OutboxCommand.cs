using ClearView.Console.Rendering;

namespace ClearView.Console.Commands.Outboxes;

/// <summary>How an outbox stands, and sending refused readings again.</summary>
internal sealed class OutboxCommand : DocumentedCommand
{
    /// <summary>Creates the command.</summary>
    public OutboxCommand(Screen screen)
        : base("outbox", "Show what an outbox holds, and send refused readings again.",
        [
            "clearview outbox status",
            "clearview outbox status --outbox line3 --json",
            "clearview outbox retry --outbox line3",
        ])
    {
        Add(new OutboxStatusCommand(screen));
        Add(new OutboxRetryCommand(screen));
    }
}

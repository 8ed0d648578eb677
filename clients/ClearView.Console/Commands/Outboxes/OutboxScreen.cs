using System.Collections.Immutable;

using ClearView.Client.Outbox;
using ClearView.Console.Judging;
using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Commands.Outboxes;

/// <summary>Shows what happens in an outbox, a line each, holds stored readings against limits, and finds the exit code.</summary>
/// <param name="screen">Takes the lines.</param>
/// <param name="limits">Limits that every specimen is to keep; may be empty.</param>
/// <param name="asJson">Whether the lines are JSON.</param>
internal sealed class OutboxScreen(Screen screen, ImmutableArray<Limit> limits, bool asJson)
{
    private int _faults;
    private int _notKept;

    /// <summary>Whether stored readings are to come back, since limits are held against them.</summary>
    public bool NeedsReadings => !limits.IsEmpty;

    /// <summary>What the exit code says of all that was shown: bad input before a failed limit before all well.</summary>
    public int ExitCode => _faults > 0 ? Commands.ExitCode.BadInput : _notKept > 0 ? Commands.ExitCode.LimitFailed : Commands.ExitCode.Ok;

    /// <summary>Shows an event.</summary>
    public void Write(OutboxEvent what)
    {
        var verdict = what.Acknowledgement?.Reading is { } reading ? LimitsVerdict.Of(reading.Evaluation, limits) : null;
        var isKept = verdict is null or { Judgement: Judgement.Pass }
            && what.Acknowledgement?.Verdict is null or { Outcome: VerdictOutcome.Conformity };
        if (!isKept)
        {
            Interlocked.Increment(ref _notKept);
        }
        if (what.Kind == OutboxEventKind.Refused)
        {
            Interlocked.Increment(ref _faults);
        }
        OutboxText.Write(screen, what, verdict, asJson);
    }

    /// <summary>Tells of a file or a line that was not taken.</summary>
    public void Fault(string message)
    {
        Interlocked.Increment(ref _faults);
        Trouble(message);
    }

    /// <summary>Tells of what is tried again, and so does not count in the exit code.</summary>
    public void Trouble(string message)
    {
        try
        {
            screen.Error(message);
        }
        catch (IOException)
        {
            // The log may lie on the disk that is full: posting goes on.
        }
    }
}

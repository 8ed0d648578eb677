using System.Diagnostics;

using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Watching;

/// <summary>One watch over stored readings. Reads the store as its client takes answers, and holds a page at most.</summary>
/// <param name="recorded">The readings in the order of recording.</param>
/// <param name="request">What is watched.</param>
/// <param name="query">The same for the store.</param>
/// <param name="pace">How often it looks and speaks.</param>
/// <param name="write">Sends an answer, and waits while the client does not take any.</param>
internal sealed class ReadingWatch(
    IRecordedStore recorded, WatchReadingsRequest request, RecordedQuery query, WatchPace pace, Func<WatchReadingsResponse, Task> write)
{
    private long _place = query.After;
    private long _spokenAt = Stopwatch.GetTimestamp();

    /// <summary>Readings that were sent.</summary>
    public long SentCount { get; private set; }

    /// <summary>Watches until it is cancelled.</summary>
    /// <exception cref="OperationCanceledException">It was cancelled.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    /// <exception cref="RpcException">OUT_OF_RANGE: the position is none of this store.</exception>
    public async Task RunAsync(CancellationToken cancellationToken)
    {
        var last = await recorded.LastAsync(cancellationToken).ConfigureAwait(false);
        if (request.Position.Length == 0 && !request.FromBeginning)
        {
            _place = last;
        }
        else if (_place > last)
        {
            // The order of recording never gets shorter, unless the store was put back.
            throw FieldFaults.ToException(StatusCode.OutOfRange, "the position is none of this store", [new FieldViolation
            {
                Field = "position",
                Description = $"lies behind everything in this store, whose last is {WatchPositions.Write(last)}: it is of another store, or of a later state than the one that was restored; expected a position taken since, or from_beginning.",
            }]);
        }

        await SpeakAsync(null, _place).ConfigureAwait(false);
        while (true)
        {
            // Taken before the look, so that no change falls in between.
            var changed = recorded.Changed;
            var page = await recorded.ListAsync(query with { After = _place }, cancellationToken).ConfigureAwait(false);
            foreach (var stored in page.Readings)
            {
                var reading = ReadingMapper.ToReading(stored, request.OmitSpectra);
                if (!request.OnlyAlarms || IsAlarm(reading))
                {
                    await SpeakAsync(reading, stored.Sequence).ConfigureAwait(false);
                    SentCount++;
                }
            }

            _place = page.Through;
            if (Stopwatch.GetElapsedTime(_spokenAt) >= pace.SignOfLife)
            {
                await SpeakAsync(null, _place).ConfigureAwait(false);
            }

            cancellationToken.ThrowIfCancellationRequested();
            if (!page.HasMore)
            {
                await WaitAsync(changed, cancellationToken).ConfigureAwait(false);
            }
        }
    }

    private static bool IsAlarm(Reading reading) =>
        reading.Signals.Count > 0 || reading.Verdict is { Outcome: not VerdictOutcome.Conformity };

    private async Task WaitAsync(Task changed, CancellationToken cancellationToken)
    {
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        await Task.WhenAny(changed, Task.Delay(pace.Poll, ending.Token)).ConfigureAwait(false);
        await ending.CancelAsync().ConfigureAwait(false);
        await Task.Delay(pace.Gather, cancellationToken).ConfigureAwait(false);
    }

    private Task SpeakAsync(Reading? reading, long place)
    {
        _spokenAt = Stopwatch.GetTimestamp();
        return write(new WatchReadingsResponse { Reading = reading, Position = WatchPositions.Write(place) });
    }
}

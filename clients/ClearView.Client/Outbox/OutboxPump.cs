using ClearView.Client.Calls;

namespace ClearView.Client.Outbox;

/// <summary>Sends what waits in an outbox: each line in its order, the lines side by side, each with pauses of its own.</summary>
/// <param name="outbox">The outbox.</param>
/// <param name="sender">Sends.</param>
/// <param name="options">Pauses; <see langword="null"/> takes the defaults.</param>
/// <param name="clock">Measures the pauses; <see langword="null"/> takes the system's.</param>
public sealed class OutboxPump(ReadingOutbox outbox, IReadingSender sender, OutboxOptions? options = null, TimeProvider? clock = null)
{
    private const int MostCalls = 8;
    private static readonly TimeSpan RetryPoll = TimeSpan.FromSeconds(1);

    private readonly OutboxOptions _options = options ?? new OutboxOptions();
    private readonly TimeProvider _clock = clock ?? TimeProvider.System;
    private bool _retriesFail;

    /// <summary>Sends until it is stopped or, where that is wanted, until nothing waits. Stopping is no fault: it returns.</summary>
    /// <param name="untilEmpty">Completes when nothing more will be accepted: then the work ends with the last reading. Never completes where it shall go on.</param>
    /// <param name="cancellationToken">Stops.</param>
    public async Task RunAsync(Task untilEmpty, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(untilEmpty);
        using var calls = new SemaphoreSlim(MostCalls);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        var running = new Dictionary<string, Task>(StringComparer.Ordinal);
        try
        {
            while (!stop.IsCancellationRequested)
            {
                // Asked for first, so that what is taken from here on is not missed.
                var changed = outbox.ChangedAsync();
                var retriesTaken = TryTakeRetries();
                foreach (var line in running.Where(one => one.Value.IsCompleted).Select(one => one.Key).ToList())
                {
                    running.Remove(line, out var task);
                    await task!.ConfigureAwait(false);
                }
                foreach (var line in outbox.WaitingLines().Where(line => !running.ContainsKey(line)))
                {
                    running[line] = SendAsync(line, calls, stop.Token);
                }
                if (running.Count == 0 && untilEmpty.IsCompleted && outbox.IsEmpty && retriesTaken)
                {
                    return;
                }
                var news = running.Values.Append(changed).Append(Task.Delay(RetryPoll, _clock, stop.Token));
                await Task.WhenAny(untilEmpty.IsCompleted ? news : news.Append(untilEmpty)).ConfigureAwait(false);
            }
        }
        finally
        {
            await stop.CancelAsync().ConfigureAwait(false);
            await Task.WhenAll(running.Values).ConfigureAwait(false);
        }
    }

    private async Task SendAsync(string line, SemaphoreSlim calls, CancellationToken cancellationToken)
    {
        try
        {
            var failures = 0;
            while (!cancellationToken.IsCancellationRequested)
            {
                var batch = await KeepTryingAsync(() => outbox.Next(line), cancellationToken).ConfigureAwait(false);
                if (batch.Count == 0)
                {
                    return;
                }
                var results = await CallAsync([.. batch.Select(one => one.Request)], calls, cancellationToken).ConfigureAwait(false);
                foreach (var what in await KeepTryingAsync(() => outbox.Complete(line, batch, results), cancellationToken).ConfigureAwait(false))
                {
                    outbox.Report(what);
                }
                if (results.Count == batch.Count && results[^1].Kind != OutboxEventKind.Waiting)
                {
                    failures = 0;
                    continue;
                }
                cancellationToken.ThrowIfCancellationRequested();
                failures = results.Count > 1 ? 1 : failures + 1;
                var pause = RetryRules.PauseAfter(_options.InitialBackoff, _options.MaxBackoff, failures);
                var first = batch[Math.Max(results.Count - 1, 0)].Entry;
                outbox.Report(first.Event(OutboxEventKind.Waiting, results is [.., var last] ? last.Message : "the server did not answer"));
                await Task.Delay(pause, _clock, cancellationToken).ConfigureAwait(false);
            }
        }
        catch (OperationCanceledException) when (cancellationToken.IsCancellationRequested)
        {
            // What was not answered is sent again the next time.
        }
    }

    // A disk that is full or does not answer: until it does nothing is done with, and nothing is sent twice on its account.
    private async Task<T> KeepTryingAsync<T>(Func<T> work, CancellationToken cancellationToken)
    {
        for (var failures = 0; ;)
        {
            try
            {
                var result = work();
                if (failures > 0)
                {
                    outbox.Report(new OutboxEvent(OutboxEventKind.AlarmEnded, "the files of the outbox can be read and written again"));
                }
                return result;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                if (++failures == 1)
                {
                    outbox.Report(FaultOfFiles(e));
                }
            }
            await Task.Delay(RetryRules.PauseAfter(_options.InitialBackoff, _options.MaxBackoff, failures), _clock, cancellationToken).ConfigureAwait(false);
        }
    }

    // Whether none is left for a fault of its file. It is told once, and tried again every second.
    private bool TryTakeRetries()
    {
        Exception? fault;
        try
        {
            fault = outbox.TakeRetries();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            fault = e;
        }
        if (fault is not null && !_retriesFail)
        {
            outbox.Report(FaultOfFiles(fault));
        }
        _retriesFail = fault is not null;
        return !_retriesFail;
    }

    private static OutboxEvent FaultOfFiles(Exception fault) =>
        new(OutboxEventKind.Alarm, $"the files of the outbox cannot be read or written: {fault.Message.TrimEnd('.')}; nothing is lost, and it is tried again");

    private async Task<IReadOnlyList<SendResult>> CallAsync(IReadOnlyList<V1.PostReadingRequest> readings, SemaphoreSlim calls, CancellationToken cancellationToken)
    {
        await calls.WaitAsync(cancellationToken).ConfigureAwait(false);
        try
        {
            return await sender.SendAsync(readings, cancellationToken).ConfigureAwait(false);
        }
        finally
        {
            calls.Release();
        }
    }
}

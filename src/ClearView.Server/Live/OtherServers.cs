using ClearView.Records.Model;

namespace ClearView.Server.Live;

/// <summary>Brings the charts of this server up to date with what other servers of the store recorded.</summary>
/// <remarks>
/// Places in the order of recording are given from one counter: where this server took all of a stretch, no other one recorded
/// anything there, and nothing is asked. Safe for concurrent use; calls that come at once share one look into the store.
/// </remarks>
/// <param name="recorded">The readings in the order of recording.</param>
internal sealed class OtherServers(IRecordedStore recorded) : IDisposable
{
    // Commits of other servers that are in flight are waited for, 0.2 s at most.
    private const int MostLooks = 50;

    private static readonly TimeSpan PauseBetweenLooks = TimeSpan.FromMilliseconds(4);

    private readonly SemaphoreSlim _gate = new(1, 1);
    private readonly HashSet<long> _ahead = [];
    private long? _through;
    private long _stuckAt = -1;

    /// <summary>Takes in what other servers recorded before a reading of this one.</summary>
    /// <param name="before">The reading's place in the order of recording.</param>
    /// <param name="charts">Gives the charts as they are then.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read now. The next call takes in what this one missed.</exception>
    public async ValueTask TakeInAsync(long before, Func<IReadOnlyCollection<WatchedChart>> charts)
    {
        if (!recorded.IsShared)
        {
            return;
        }

        await _gate.WaitAsync().ConfigureAwait(false);
        try
        {
            if (_through is not { } through)
            {
                // Charts that are built later are read from the store, with everything that is there by now.
                through = await recorded.CompleteAsync(CancellationToken.None).ConfigureAwait(false);
                foreach (var chart in charts())
                {
                    await chart.ForgetAsync().ConfigureAwait(false);
                }

                _through = through;
            }
            else if (recorded.MayHoldOthers(through, before))
            {
                await CatchUpAsync(through, before, charts).ConfigureAwait(false);
            }
            else
            {
                _through = Math.Max(through, before);
            }
        }
        finally
        {
            _gate.Release();
        }
    }

    public void Dispose() => _gate.Dispose();

    // A lower place that is committed later would else be missed by both: here it is not there yet, and where it was recorded
    // nothing tells that a higher one is. A transaction that hangs is waited for once.
    private async Task CatchUpAsync(long through, long before, Func<IReadOnlyCollection<WatchedChart>> charts)
    {
        through = await LookAsync(through, charts).ConfigureAwait(false);
        for (var looks = 1; through < before && through != _stuckAt; looks++)
        {
            if (looks == MostLooks)
            {
                _stuckAt = through;
                return;
            }

            await Task.Delay(PauseBetweenLooks).ConfigureAwait(false);
            through = await LookAsync(through, charts).ConfigureAwait(false);
        }
    }

    private async Task<long> LookAsync(long through, Func<IReadOnlyCollection<WatchedChart>> charts)
    {
        var measurands = charts().Select(chart => chart.MeasurandId).ToHashSet();
        var page = await recorded.ListOthersAsync(new OthersQuery(through, _ahead, measurands), CancellationToken.None).ConfigureAwait(false);

        // Asked for after the look: a chart that came since is built from a store that holds what was seen.
        foreach (var chart in charts())
        {
            if (page.IsBroken || !measurands.Contains(chart.MeasurandId))
            {
                await chart.ForgetAsync().ConfigureAwait(false);
                continue;
            }

            foreach (var (sequence, entry) in page.Readings)
            {
                if (chart.ReadingOf(entry, sequence) is { } reading)
                {
                    await chart.TakeOtherAsync(reading).ConfigureAwait(false);
                }
            }
        }

        // A correction among them had the charts forgotten now; listed again and again behind a floor that hangs, it would each time.
        _ahead.UnionWith(page.Seen);
        _ahead.RemoveWhere(sequence => sequence <= page.Through);
        _through = page.Through;
        return page.Through;
    }
}

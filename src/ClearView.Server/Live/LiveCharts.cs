using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

namespace ClearView.Server.Live;

/// <summary>The stored charts in their newest versions, held ready to say what a reading raises when it is posted.</summary>
/// <remarks>
/// <para>
/// The list of charts is read once, and kept up with what is stored through this server; where other servers share the store, it is
/// read again every two seconds, as readings come. The charts take in what other servers recorded before each reading.
/// </para>
/// <para>
/// A failure never reaches the poster, whose reading is stored: it is logged, and there are no signals. Safe for concurrent use.
/// </para>
/// </remarks>
internal sealed class LiveCharts(
    [FromKeyedServices(VersionedKind.ControlChart)] IVersionedStore store,
    ISeriesStore series,
    IRecordedStore recorded,
    TimeProvider clock,
    ILogger<LiveCharts> logger) : IDisposable
{
    private const string AlreadyStored =
        "Whatever goes wrong here must not make a post fail whose reading is stored: it would be taken for one that is not. It is logged.";

    private static readonly TimeSpan ListAgainAfter = TimeSpan.FromSeconds(2);

    private readonly SemaphoreSlim _listing = new(1, 1);
    private readonly OtherServers _others = new(recorded);
    private long _listedAt;
    private ImmutableDictionary<string, WatchedChart>? _charts;

    /// <summary>Takes a chart that was just stored, in place of the version before.</summary>
    /// <param name="stored">The chart.</param>
    public async Task TakeAsync(StoredVersion stored)
    {
        await _listing.WaitAsync().ConfigureAwait(false);
        try
        {
            // Without a list yet, the chart is on it when it is read.
            if (_charts is { } charts)
            {
                Volatile.Write(ref _charts, With(charts, stored));
            }
        }
        finally
        {
            _listing.Release();
        }
    }

    /// <summary>Whether a reading belongs to a chart, or may: as long as the charts have not been listed, any may.</summary>
    /// <param name="entry">The reading, with its values; not stored yet.</param>
    public async ValueTask<bool> MayRaiseAsync(ReadingEntry entry)
    {
        await ListAgainAsync().ConfigureAwait(false);
        return Volatile.Read(ref _charts) is not { } charts || charts.Values.Any(chart => chart.ReadingOf(entry, sequence: 0) is not null);
    }

    /// <summary>Says what a stored reading raises on the charts that it belongs to.</summary>
    /// <param name="entry">The reading, with its values.</param>
    /// <param name="sequence">Its place in the order of recording.</param>
    public async Task<IReadOnlyList<RaisedSignal>> CheckAsync(ReadingEntry entry, long sequence)
    {
        var raised = new List<RaisedSignal>();
        await TryCheckAsync(entry, sequence, isLeft: false, raised).ConfigureAwait(false);
        return raised;
    }

    /// <summary>Says what a stored reading raises on the charts that it belongs to.</summary>
    /// <param name="entry">The reading, with its values.</param>
    /// <param name="sequence">Its place in the order of recording.</param>
    /// <param name="isLeft">Whether it was stored before this server started, see <see cref="WatchedChart.AddAsync"/>.</param>
    /// <param name="raised">Takes what it raises.</param>
    /// <returns>Whether it was held against every one; why not is in the log.</returns>
    [SuppressMessage("Design", "CA1031", Justification = AlreadyStored)]
    public async Task<bool> TryCheckAsync(ReadingEntry entry, long sequence, bool isLeft, List<RaisedSignal> raised)
    {
        var isWhole = true;
        try
        {
            var charts = Volatile.Read(ref _charts) ?? await ListAsync().ConfigureAwait(false);
            var readings = charts.Values.Select(chart => (Chart: chart, Reading: chart.ReadingOf(entry, sequence))).Where(one => one.Reading is not null).ToList();
            if (readings.Count > 0)
            {
                await TakeInOthersAsync(entry, sequence).ConfigureAwait(false);
            }

            // What a correction takes out of a chart, the next reading finds gone.
            foreach (var chart in entry.Corrects is null ? [] : charts.Values)
            {
                await chart.ForgetAsync().ConfigureAwait(false);
            }

            foreach (var (chart, own) in readings)
            {
                if (own is { } reading)
                {
                    isWhole &= await TryCheckAsync(chart, reading, isLeft, entry.Id, raised).ConfigureAwait(false);
                }
            }
        }
        catch (Exception error)
        {
            LiveLog.ChartsNotListed(logger, error, entry.Id);
            isWhole = false;
        }

        raised.Sort(static (one, other) => string.CompareOrdinal(one.ControlChartName.Name, other.ControlChartName.Name) is not 0 and var byName
            ? byName
            : one.MeasuredAt.CompareTo(other.MeasuredAt) is not 0 and var byTime ? byTime : one.Pattern.CompareTo(other.Pattern));
        return isWhole;
    }

    public void Dispose()
    {
        _listing.Dispose();
        _others.Dispose();
        foreach (var chart in _charts?.Values ?? [])
        {
            chart.Dispose();
        }
    }

    [SuppressMessage("Design", "CA1031", Justification = AlreadyStored)]
    private async Task<bool> TryCheckAsync(WatchedChart chart, Quality.Series.SeriesReading reading, bool isLeft, Guid id, List<RaisedSignal> raised)
    {
        try
        {
            raised.AddRange(await chart.AddAsync(reading, isLeft, CancellationToken.None).ConfigureAwait(false));
            return true;
        }
        catch (Exception error)
        {
            LiveLog.CheckFailed(logger, error, id, chart.Name.Name, chart.Name.Version);
            return false;
        }
    }

    private async Task TakeInOthersAsync(ReadingEntry entry, long sequence)
    {
        try
        {
            await _others.TakeInAsync(sequence, () => [.. (Volatile.Read(ref _charts) ?? ImmutableDictionary<string, WatchedChart>.Empty).Values]).ConfigureAwait(false);
        }
        catch (StoreUnavailableException error)
        {
            LiveLog.OthersNotRead(logger, error, entry.Id);
        }
    }

    // Whoever comes while the list is read goes on with the one that is there.
    private async Task ListAgainAsync()
    {
        if (!recorded.IsShared || Volatile.Read(ref _charts) is null || clock.GetElapsedTime(Volatile.Read(ref _listedAt)) < ListAgainAfter
            || !await _listing.WaitAsync(TimeSpan.Zero).ConfigureAwait(false))
        {
            return;
        }

        try
        {
            await ReadListAsync(Volatile.Read(ref _charts)!).ConfigureAwait(false);
        }
        catch (StoreUnavailableException error)
        {
            LiveLog.ChartsNotListedAgain(logger, error);
        }
        finally
        {
            _listing.Release();
        }
    }

    private async Task<ImmutableDictionary<string, WatchedChart>> ListAsync()
    {
        await _listing.WaitAsync().ConfigureAwait(false);
        try
        {
            return _charts ?? await ReadListAsync(ImmutableDictionary<string, WatchedChart>.Empty).ConfigureAwait(false);
        }
        finally
        {
            _listing.Release();
        }
    }

    private async Task<ImmutableDictionary<string, WatchedChart>> ReadListAsync(ImmutableDictionary<string, WatchedChart> charts)
    {
        Volatile.Write(ref _listedAt, clock.GetTimestamp());
        var query = new VersionQuery { PageSize = 1000 };
        VersionPage page;
        do
        {
            page = await store.ListAsync(query, CancellationToken.None).ConfigureAwait(false);
            charts = page.Versions.Aggregate(charts, With);
            query = page.HasMore ? query with { After = new VersionPosition(page.Versions[^1].Entry.Name, page.Versions[^1].Version) } : query;
        }
        while (page.HasMore);
        Volatile.Write(ref _charts, charts);
        return charts;
    }

    private ImmutableDictionary<string, WatchedChart> With(ImmutableDictionary<string, WatchedChart> charts, StoredVersion stored)
    {
        if (charts.TryGetValue(stored.Entry.Name, out var there) && there.Name.Version >= stored.Version)
        {
            return charts;
        }

        try
        {
            return charts.SetItem(stored.Entry.Name, new WatchedChart(NamedControlCharts.ToNamedControlChart(stored), series, recorded, clock));
        }
        catch (Exception error) when (error is ArgumentException or Google.Protobuf.InvalidProtocolBufferException)
        {
            // Stored by a version of the software that knew other charts or measurands.
            LiveLog.ChartNotWatched(logger, error, stored.Entry.Name, stored.Version);
            return charts.Remove(stored.Entry.Name);
        }
    }
}

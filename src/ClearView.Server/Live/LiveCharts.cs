using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

namespace ClearView.Server.Live;

/// <summary>The stored charts in their newest versions, held ready to say what a reading raises when it is posted.</summary>
/// <remarks>
/// The list of charts is read once, and kept up with what is stored through this server. A failure never reaches the poster,
/// whose reading is stored: it is logged, and there are no signals. Safe for concurrent use.
/// </remarks>
internal sealed class LiveCharts(
    [FromKeyedServices(VersionedKind.ControlChart)] IVersionedStore store,
    ISeriesStore series,
    TimeProvider clock,
    ILogger<LiveCharts> logger) : IDisposable
{
    private const string AlreadyStored =
        "Whatever goes wrong here must not make a post fail whose reading is stored: it would be taken for one that is not. It is logged.";

    private readonly SemaphoreSlim _listing = new(1, 1);
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
    /// <param name="entry">The reading, with its values.</param>
    public bool MayRaise(ReadingEntry entry) =>
        Volatile.Read(ref _charts) is not { } charts || charts.Values.Any(chart => chart.ReadingOf(entry, sequence: 0) is not null);

    /// <summary>Says what a stored reading raises on the charts that it belongs to.</summary>
    /// <param name="entry">The reading, with its values.</param>
    /// <param name="sequence">Its place in the order of recording.</param>
    [SuppressMessage("Design", "CA1031", Justification = AlreadyStored)]
    public async Task<IReadOnlyList<RaisedSignal>> CheckAsync(ReadingEntry entry, long sequence)
    {
        List<RaisedSignal> raised = [];
        try
        {
            var charts = Volatile.Read(ref _charts) ?? await ListAsync().ConfigureAwait(false);
            foreach (var chart in charts.Values)
            {
                // What a correction takes out of a chart, the next reading finds gone.
                if (entry.Corrects is not null)
                {
                    await chart.ForgetAsync().ConfigureAwait(false);
                }

                if (chart.ReadingOf(entry, sequence) is { } reading)
                {
                    raised.AddRange(await CheckAsync(chart, reading, entry.Id).ConfigureAwait(false));
                }
            }
        }
        catch (Exception error)
        {
            LiveLog.ChartsNotListed(logger, error, entry.Id);
        }

        raised.Sort(static (one, other) => string.CompareOrdinal(one.ControlChartName.Name, other.ControlChartName.Name) is not 0 and var byName
            ? byName
            : one.MeasuredAt.CompareTo(other.MeasuredAt) is not 0 and var byTime ? byTime : one.Pattern.CompareTo(other.Pattern));
        return raised;
    }

    public void Dispose()
    {
        _listing.Dispose();
        foreach (var chart in _charts?.Values ?? [])
        {
            chart.Dispose();
        }
    }

    [SuppressMessage("Design", "CA1031", Justification = AlreadyStored)]
    private async Task<List<RaisedSignal>> CheckAsync(WatchedChart chart, Quality.Series.SeriesReading reading, Guid id)
    {
        try
        {
            return await chart.AddAsync(reading, CancellationToken.None).ConfigureAwait(false);
        }
        catch (Exception error)
        {
            LiveLog.CheckFailed(logger, error, id, chart.Name.Name, chart.Name.Version);
            return [];
        }
    }

    private async Task<ImmutableDictionary<string, WatchedChart>> ListAsync()
    {
        await _listing.WaitAsync().ConfigureAwait(false);
        try
        {
            if (_charts is { } there)
            {
                return there;
            }

            var charts = ImmutableDictionary<string, WatchedChart>.Empty;
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
        finally
        {
            _listing.Release();
        }
    }

    private ImmutableDictionary<string, WatchedChart> With(ImmutableDictionary<string, WatchedChart> charts, StoredVersion stored)
    {
        if (charts.TryGetValue(stored.Entry.Name, out var there) && there.Name.Version >= stored.Version)
        {
            return charts;
        }

        try
        {
            return charts.SetItem(stored.Entry.Name, new WatchedChart(NamedControlCharts.ToNamedControlChart(stored), series, clock));
        }
        catch (Exception error) when (error is ArgumentException or Google.Protobuf.InvalidProtocolBufferException)
        {
            // Stored by a version of the software that knew other charts or measurands.
            LiveLog.ChartNotWatched(logger, error, stored.Entry.Name, stored.Version);
            return charts.Remove(stored.Entry.Name);
        }
    }
}

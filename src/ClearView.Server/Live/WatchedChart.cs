using ClearView.Contract.ControlCharts;
using ClearView.Optics.Evaluations;
using ClearView.Quality.ControlCharts;
using ClearView.Quality.Series;
using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Server.Live;

/// <summary>A stored chart that readings are held against as they come in. Built from the store when its first reading does.</summary>
/// <remarks>One reading at a time; others wait. Safe for concurrent use.</remarks>
internal sealed class WatchedChart : IDisposable
{
    // A chart that has to be read anew from the store over and over, since old readings come in, takes a tenth of the time at most.
    private const int PausePerBuild = 10;

    private readonly NamedControlChart _named;
    private readonly ISeriesStore _series;
    private readonly IRecordedStore _recorded;
    private readonly TimeProvider _clock;
    private readonly ChartDefinition _definition;
    private readonly Measurand _measurand;
    private readonly SemaphoreSlim _gate = new(1, 1);
    private LiveChart? _live;
    private bool _isBehind;
    private long _completeAtBuild;
    private HashSet<long> _aheadAtBuild = [];
    private long _builtAt;
    private TimeSpan _buildTook;

    /// <summary>A chart that is built later.</summary>
    /// <exception cref="ArgumentException">Its measurand is unknown, or it is no chart.</exception>
    public WatchedChart(NamedControlChart named, ISeriesStore series, IRecordedStore recorded, TimeProvider clock)
    {
        _named = named;
        _series = series;
        _recorded = recorded;
        _clock = clock;
        _definition = ControlChartReader.Read(named.ControlChart);
        _measurand = Measurand.TryFind(named.ControlChart.Series.Measurand, out var measurand)
            ? measurand
            : throw new ArgumentException($"There is no measurand {named.ControlChart.Series.Measurand}.", nameof(named));
    }

    /// <summary>Name and version.</summary>
    public ControlChartName Name => _named.ControlChartName;

    /// <summary>Identifier of the measurand.</summary>
    public string MeasurandId => _measurand.Id;

    /// <summary>The reading on this chart; <see langword="null"/> where it does not belong to its series.</summary>
    public SeriesReading? ReadingOf(ReadingEntry entry, long sequence)
    {
        if (!ChartQueries.Holds(_named.ControlChart.Series, entry))
        {
            return null;
        }

        foreach (var (measurand, value) in entry.Values)
        {
            if (measurand == _measurand.Id)
            {
                return new SeriesReading(
                    entry.MeasuredAt.UtcTicks, sequence, value, ChartQueries.LabelOf(_named.ControlChart, entry), double.NaN, double.NaN);
            }
        }

        return null;
    }

    /// <summary>Takes a reading that is stored, and says what it raises.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="isLeft">
    /// Whether it was stored long ago and has to be told of all the same: where the chart no longer keeps it, the store is read for it,
    /// however often that was done lately.
    /// </param>
    /// <param name="cancellationToken">Stops it.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public async Task<List<RaisedSignal>> AddAsync(SeriesReading reading, bool isLeft, CancellationToken cancellationToken)
    {
        await _gate.WaitAsync(cancellationToken).ConfigureAwait(false);
        try
        {
            return ToRaised(await TakeAsync(reading, isLeft, cancellationToken).ConfigureAwait(false));
        }
        catch
        {
            // It may lack the reading now: the next one builds it again.
            _live = null;
            throw;
        }
        finally
        {
            _gate.Release();
        }
    }

    /// <summary>Takes a reading that another server recorded, and told the signals of.</summary>
    public async Task TakeOtherAsync(SeriesReading reading)
    {
        await _gate.WaitAsync().ConfigureAwait(false);
        try
        {
            // One that is not built reads the store when it is.
            if (_live is { } live && !IsOfBuild(reading))
            {
                _isBehind |= live.Add(reading).Placement == LivePlacement.NeedsRebuild;
            }
        }
        finally
        {
            _gate.Release();
        }
    }

    /// <summary>Has the chart read anew from the store when its next reading comes.</summary>
    public async Task ForgetAsync()
    {
        await _gate.WaitAsync().ConfigureAwait(false);
        _live = null;
        _gate.Release();
    }

    public void Dispose() => _gate.Dispose();

    private async Task<LiveAnswer> TakeAsync(SeriesReading reading, bool isLeft, CancellationToken cancellationToken)
    {
        if (_live is null || (_isBehind && (isLeft || MayBuild())))
        {
            return await BuildAsync(reading, cancellationToken).ConfigureAwait(false);
        }

        // Stored before the chart was built, so that it is on the chart already.
        if (IsOfBuild(reading))
        {
            var recalled = _live.Recall(reading.MeasuredAtTicks, reading.RecordedOrder);
            return isLeft && recalled.Placement == LivePlacement.NeedsRebuild
                ? await BuildAsync(reading, cancellationToken).ConfigureAwait(false)
                : recalled;
        }

        var answer = _live.Add(reading);
        if (answer.Placement != LivePlacement.NeedsRebuild)
        {
            return answer;
        }

        _isBehind = true;
        return isLeft || MayBuild() ? await BuildAsync(reading, cancellationToken).ConfigureAwait(false) : answer;
    }

    // Several servers commit in another order than they number: a lower place than one on the chart may still come.
    private bool IsOfBuild(in SeriesReading reading) =>
        reading.RecordedOrder <= _completeAtBuild || _aheadAtBuild.Contains(reading.RecordedOrder);

    private bool MayBuild() => _clock.GetElapsedTime(_builtAt) >= PausePerBuild * _buildTook;

    private async Task<LiveAnswer> BuildAsync(SeriesReading reading, CancellationToken cancellationToken)
    {
        var start = _clock.GetTimestamp();
        var complete = await _recorded.CompleteAsync(cancellationToken).ConfigureAwait(false);
        var build = new LiveChartBuild(_definition, reading, complete);
        await _series.ReadAsync(ChartQueries.Read(_named.ControlChart), build.Take, cancellationToken).ConfigureAwait(false);
        _live = build.Chart;
        (_completeAtBuild, _aheadAtBuild) = (complete, build.Ahead);
        _isBehind = false;
        _builtAt = _clock.GetTimestamp();
        _buildTook = _clock.GetElapsedTime(start, _builtAt);
        return build.Answer;
    }

    private List<RaisedSignal> ToRaised(LiveAnswer answer)
    {
        List<RaisedSignal> raised = [];
        foreach (var signal in answer.Signals)
        {
            raised.AddRange(ControlPatterns.Of(signal.Raised).Select(pattern => new RaisedSignal
            {
                ControlChartName = _named.ControlChartName,
                Measurand = _measurand.Id,
                Pattern = pattern,
                Message = SignalWords.Of(pattern, signal.Point, _definition, _measurand),
                MeasuredAt = signal.Point.MeasuredAt.ToTimestamp(),
                Revised = answer.Revised,
            }));
        }

        return raised;
    }
}

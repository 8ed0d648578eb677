using System.Collections.Immutable;

using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Order;

using ClearView.Quality.ControlCharts;
using ClearView.Quality.Series;
using ClearView.Records.Model;
using ClearView.Records.Sqlite;

namespace ClearView.Benchmarks.Live;

/// <summary>What the live signals of one reading on five charts cost, beside storing the reading.</summary>
/// <remarks>The store is a file in the temporary folder; a reading takes 6 KB and has twenty values. Ratios hold within one run only.</remarks>
[MemoryDiagnoser]
[Orderer(SummaryOrderPolicy.Declared)]
public class LiveSignalBenchmarks
{
    private const int GroupSize = 256;

    private static readonly DateTimeOffset Start = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly byte[] _payload = new byte[2000];
    private readonly ImmutableArray<MeasurandValue> _values = [.. Enumerable.Range(0, 20).Select(i => new MeasurandValue($"measurand_{i}", i))];
    private readonly Random _random = new(7);

    private string _folder = "";
    private SqliteStore? _store;
    private int _number;
    private LiveChart[] _charts = [];
    private long _order;

    /// <summary>Opens a store and five charts of five kinds with a day of readings on them.</summary>
    [GlobalSetup]
    public void Prepare()
    {
        _folder = Directory.CreateTempSubdirectory("clearview-benchmark-").FullName;
        _store = SqliteStore.Open(Path.Combine(_folder, "readings.db"), TimeProvider.System);
        ControlLimits single = ControlLimits.Given(ControlChartKind.Individuals, 2, 0.1);
        ControlLimits range = ControlLimits.Given(ControlChartKind.AveragesWithRange, 2, 0.1, 5);
        ControlLimits deviation = ControlLimits.Given(ControlChartKind.AveragesWithStandardDeviation, 2, 0.1, 5);
        _charts =
        [
            Chart(single, Subgrouping.None),
            Chart(range, Subgrouping.Consecutive(5)),
            Chart(deviation, Subgrouping.ByLabel),
            Chart(single.WithEwma(EwmaSettings.Usual), Subgrouping.None),
            Chart(single.WithCusum(CusumSettings.Usual), Subgrouping.None),
        ];
        for (int i = 0; i < 10_000; i++)
        {
            SignalsOfTheNewest();
        }
    }

    /// <summary>Closes the store and removes its file.</summary>
    [GlobalCleanup]
    public void CleanUp()
    {
        _store!.DisposeAsync().AsTask().GetAwaiter().GetResult();
        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>Storing one reading alone, durably.</summary>
    [Benchmark(Baseline = true)]
    public Task<AppendOutcome> StoreAlone() => _store!.Readings.AppendAsync(Entry(), CancellationToken.None);

    /// <summary>Storing one reading of 256 that come at once and are committed together, durably.</summary>
    [Benchmark(OperationsPerInvoke = GroupSize)]
    public Task StoreInAGroup() =>
        Task.WhenAll(Enumerable.Range(0, GroupSize).Select(_ => _store!.Readings.AppendAsync(Entry(), CancellationToken.None)));

    /// <summary>Signals of one reading in time on five charts.</summary>
    [Benchmark]
    public int SignalsOfTheNewest() => Add(++_order * TimeSpan.TicksPerSecond);

    /// <summary>The same with a second reading, which comes 2 s late, as posts do that are sent at once.</summary>
    [Benchmark]
    public int SignalsOfTheNewestAndOneBehind() =>
        SignalsOfTheNewest() + Add(((_order - 2) * TimeSpan.TicksPerSecond) + 1);

    /// <summary>The same with a second reading, which comes 100 s late.</summary>
    [Benchmark]
    public int SignalsOfTheNewestAndALateOne() =>
        SignalsOfTheNewest() + Add(((_order - 100) * TimeSpan.TicksPerSecond) + 1);

    private static LiveChart Chart(ControlLimits limits, Subgrouping subgrouping) =>
        new(new ChartDefinition([new ControlPhase("start", DateTimeOffset.MinValue, limits)], RunRules.Iso7870Part2, subgrouping));

    private int Add(long ticks)
    {
        SeriesReading reading = new(
            Start.UtcTicks + ticks, _order, 1.8 + (0.4 * _random.NextDouble()), _order / 7 % 2 == 0 ? "R1" : "R2", double.NaN, double.NaN);
        int signals = 0;
        foreach (LiveChart chart in _charts)
        {
            signals += chart.Add(reading).Signals.Length;
        }

        return signals;
    }

    private ReadingEntry Entry()
    {
        int number = Interlocked.Increment(ref _number);
        return new ReadingEntry
        {
            Id = new Guid(number, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10),
            MeasuredAt = Start.AddSeconds(number),
            Line = "line 3",
            Product = "clear 25",
            Specimen = "S-1",
            Instrument = "sphere 1",
            Measurement = _payload,
            Method = _payload,
            Evaluation = _payload,
            SoftwareVersion = "1",
            Values = _values,
        };
    }
}

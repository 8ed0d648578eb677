using BenchmarkDotNet.Attributes;

using ClearView.Contract.ControlCharts;
using ClearView.Contract.Studies;
using ClearView.Optics.Evaluations;
using ClearView.Quality.Series;
using ClearView.Records.Model;
using ClearView.V1;

namespace ClearView.Benchmarks.Decisions;

/// <summary>A year of one line, three million readings, from the embedded store: what each study costs beside reading the values alone.</summary>
#pragma warning disable CA1001 // The framework of the benchmarks calls Remove.
public class YearOfALineBenchmarks
#pragma warning restore CA1001
{
    private static readonly SeriesQuery Haze = new() { Measurand = "haze", Line = YearOfALine.Line };

    private static readonly NamedControlChart Individuals = new()
    {
        ControlChart = new ControlChart
        {
            Series = new SeriesFilter { Measurand = "haze", Line = YearOfALine.Line },
            Kind = ControlChartKind.Individuals,
            Phases = { new ControlPhase { Name = "year", Limits = new FrozenLimits { Centre = 2, StandardDeviation = 0.1 } } },
        },
    };

    private YearOfALine _year = null!;

    [GlobalSetup]
    public void Fill() => _year = new YearOfALine();

    [GlobalCleanup]
    public async Task Remove() => await _year.DisposeAsync();

    [Benchmark(Baseline = true, Description = "read the values")]
    public Task<SeriesColumns> Values() => ReadAsync(SeriesParts.None);

    [Benchmark(Description = "control chart")]
    public async Task<int> Chart() => ControlChartDrawer.Draw(Individuals, await ReadAsync(ControlChartReader.PartsOf(Individuals.ControlChart)), null, 2000).Count();

    [Benchmark(Description = "capability")]
    public async Task<EstimateCapabilityResponse?> Capability() => CapabilityStudy.Estimate(
        Measurands.Haze, await ReadAsync(CapabilityStudy.Parts), new SeriesLimits { Upper = 3 }, new CapabilityOptions { EvenIfUnstable = true }).Response;

    [Benchmark(Description = "roll map")]
    public async Task<MapRollResponse?> RollMap() => RollStudy.Map(
        Measurands.Haze, await ReadAsync(RollStudy.Parts), new SeriesLimits { Upper = 3 }, new RollOptions { BlockCount = 500, LaneCount = 20 }).Response;

    private async Task<SeriesColumns> ReadAsync(SeriesParts parts)
    {
        var columns = new SeriesColumns(parts);
        await _year.Store.Series.ReadAsync(
            Haze with { OmitPlaces = (parts & SeriesParts.Places) == 0 },
            (in SeriesRow row) => columns.Add(new SeriesReading(row.MeasuredAtTicks, row.Sequence, row.Value, row.Label, row.AcrossMm, row.AlongM)),
            CancellationToken.None).ConfigureAwait(false);
        return columns.Count == YearOfALine.Readings ? columns : throw new InvalidOperationException("The year is not complete.");
    }
}

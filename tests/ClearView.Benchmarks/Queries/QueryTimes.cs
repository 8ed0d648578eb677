using System.Diagnostics;

using ClearView.Benchmarks.Measuring;
using ClearView.Benchmarks.Posting;
using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Grpc.Net.Client;

namespace ClearView.Benchmarks.Queries;

/// <summary>The queries that a store is asked, through a server.</summary>
/// <param name="channel">The connection to the server.</param>
/// <param name="fill">What the store holds.</param>
/// <param name="size">How many readings it holds.</param>
internal sealed class QueryTimes(GrpcChannel channel, StoreFill fill, int size)
{
    private const int Runs = 7;
    private const string Chart = "haze-of-line-3";

    private readonly ReadingService.ReadingServiceClient _readings = new(channel);
    private readonly ControlChartService.ControlChartServiceClient _charts = new(channel);
    private readonly StudyService.StudyServiceClient _studies = new(channel);

    // In the middle of the year, on a whole lot of line 3.
    private int Middle => (size / 2 / StoreFill.Lines / StoreFill.LotSize * StoreFill.LotSize * StoreFill.Lines) + 3;

    private DateTimeOffset MiddleDay => fill.Start.AddDays(182);

    /// <summary>Asks each query several times.</summary>
    /// <returns>The names, and the middle time of each, ms, in the order of asking.</returns>
    public async Task<List<(string Name, double Milliseconds)>> MeasureAsync()
    {
        await StoreChartAsync();
        var deep = new ListReadingsRequest { OmitSpectra = true };
        deep.PageToken = PageTokens.Write(new ReadingPosition(fill.MeasuredAt(size / 2), Guid.Empty), deep);
        return
        [
            await TimeAsync("one reading by its id", GetAsync),
            await ListAsync("newest 100", new() { NewestFirst = true }),
            await ListAsync("newest 100 of a line", new() { NewestFirst = true, Line = StoreFill.Line(3) }),
            await ListAsync("first 100 of a lot", new() { Lot = StoreFill.Lot(Middle) }),
            await ListAsync("first 20 of a day", new() { PageSize = 20, MeasuredFrom = MiddleDay.ToTimestamp(), MeasuredBefore = MiddleDay.AddDays(1).ToTimestamp() }),
            await ListAsync("a page of 100 halfway down", deep),
            await TimeAsync("capability of a lot of 500", CapabilityAsync),
            await TimeAsync("chart of a line, a day", _ => DrawAsync(new MeasuredSpan
            {
                MeasuredFrom = MiddleDay.ToTimestamp(), MeasuredBefore = MiddleDay.AddDays(1).ToTimestamp(),
            })),
            await TimeAsync("chart of a line, the year", _ => DrawAsync(null)),
        ];
    }

    private static async Task<(string Name, double Milliseconds)> TimeAsync(string name, Func<int, Task> query)
    {
        // The first run warms up.
        await query(0);
        List<double> times = [];
        for (var run = 1; run <= Runs; run++)
        {
            var start = Stopwatch.GetTimestamp();
            await query(run);
            times.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }

        return (name, Figures.Median(times));
    }

    private static void Check(bool isAsExpected, string name)
    {
        if (!isAsExpected)
        {
            throw new InvalidOperationException($"The answer to \"{name}\" is not what the store holds.");
        }
    }

    private async Task GetAsync(int run)
    {
        var id = ReadingIds.Write(fill.Some[run * 7 % fill.Some.Count]);
        var answer = await _readings.GetReadingAsync(new GetReadingRequest { ReadingId = id });
        Check(answer.Reading.ReadingId == id, "one reading");
    }

    private Task<(string Name, double Milliseconds)> ListAsync(string name, ListReadingsRequest request)
    {
        request.OmitSpectra = true;
        return TimeAsync(name, async _ =>
        {
            var page = await _readings.ListReadingsAsync(request);
            Check(page.Readings.Count == (request.PageSize == 0 ? 100 : request.PageSize), name);
        });
    }

    private async Task CapabilityAsync(int run)
    {
        var answer = await _studies.EstimateCapabilityAsync(new EstimateCapabilityRequest
        {
            Stored = new StoredSeries { Filter = new SeriesFilter { Measurand = "haze", Line = StoreFill.Line(3), Lot = StoreFill.Lot(Middle) } },
            Limits = new SeriesLimits { Upper = 3 },
            Options = new CapabilityOptions { EvenIfUnstable = true },
        });
        Check(answer.Capability.ReadingCount == StoreFill.LotSize, "capability of a lot");
    }

    private async Task DrawAsync(MeasuredSpan? span)
    {
        using var call = _charts.GetControlChart(new GetControlChartRequest { ControlChartName = new ControlChartName { Name = Chart }, Span = span });
        ulong points = 0;
        while (await call.ResponseStream.MoveNext(CancellationToken.None))
        {
            points += call.ResponseStream.Current.Part.Summary?.PointCount ?? 0;
        }

        Check(span is null ? points == (ulong)(size / StoreFill.Lines) : points > 0, "chart of a line");
    }

    private async Task StoreChartAsync() => await _charts.StoreControlChartAsync(new StoreControlChartRequest
    {
        Name = Chart,
        Description = "single readings against known limits",
        StoredBy = "M. Arden",
        ControlChart = new ControlChart
        {
            Series = new SeriesFilter { Measurand = "haze", Line = StoreFill.Line(3) },
            Kind = ControlChartKind.Individuals,
            Phases = { new ControlPhase { Name = "all", Limits = new FrozenLimits { Centre = 2, StandardDeviation = 0.06 } } },
        },
    });
}

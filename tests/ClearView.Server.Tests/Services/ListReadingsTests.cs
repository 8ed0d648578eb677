using ClearView.Contract.Tests;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

public sealed class ListReadingsTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private static DateTimeOffset Now => WireExamples.Clock.GetUtcNow();

    [Fact]
    public async Task List_NothingStored_IsAnEmptyPage()
    {
        await using var server = await TestServer.StartAsync();

        var response = await server.Readings.ListReadingsAsync(new ListReadingsRequest(), cancellationToken: Token);

        Assert.Empty(response.Readings);
        Assert.Empty(response.NextPageToken);
    }

    [Fact]
    public async Task List_FilterWithAControlCharacter_IsInvalidArgument()
    {
        await using var server = await TestServer.StartAsync();

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument, server.Readings.ListReadingsAsync(new ListReadingsRequest { Line = "a\0b" }, cancellationToken: Token));

        Assert.Equal(["line"], faults.Keys);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task List_PageByPage_GivesEachOnceInOrder(bool newestFirst)
    {
        await using var server = await TestServer.StartAsync();
        await PostAsync(server, 25);

        var pages = await PagesAsync(server, new ListReadingsRequest { PageSize = 10, NewestFirst = newestFirst });

        Assert.Equal([10, 10, 5], pages.Select(page => page.Readings.Count));
        var expected = Enumerable.Range(0, 25).Select(i => "S-" + i);
        Assert.Equal(newestFirst ? expected.Reverse() : expected, Specimens(pages));
    }

    [Fact]
    public async Task List_Filters_AreJoinedByAnd()
    {
        await using var server = await TestServer.StartAsync();
        await PostAsync(server, 12);

        async Task<IEnumerable<string>> List(ListReadingsRequest request) => Specimens(await PagesAsync(server, request));

        Assert.Equal(["S-1", "S-4", "S-7", "S-10"], await List(new ListReadingsRequest { Line = "line 1" }));
        Assert.Equal(["S-10"], await List(new ListReadingsRequest { Line = "line 1", Roll = "R-2" }));
        Assert.Equal(["S-3"], await List(new ListReadingsRequest { Specimen = "S-3", Product = "clear 25", Lot = "L-1" }));
        Assert.Equal(
            ["S-2", "S-3"],
            await List(new ListReadingsRequest
            {
                MeasuredFrom = Now.AddHours(-1).AddSeconds(2).ToTimestamp(),
                MeasuredBefore = Now.AddHours(-1).AddSeconds(4).ToTimestamp(),
            }));
    }

    [Fact]
    public async Task List_TokenWithOtherFilters_IsInvalidArgument()
    {
        await using var server = await TestServer.StartAsync();
        await PostAsync(server, 12);
        var request = new ListReadingsRequest { PageSize = 1, Line = "line 1" };
        request.PageToken = (await server.Readings.ListReadingsAsync(request, cancellationToken: Token)).NextPageToken;

        // Page size and what is shown may change; filters and order may not.
        await server.Readings.ListReadingsAsync(
            new ListReadingsRequest(request) { PageSize = 2, OmitSpectra = true }, cancellationToken: Token);
        ListReadingsRequest[] others =
        [
            new(request) { Line = "line 2" },
            new(request) { Lot = "L-1" },
            new(request) { NewestFirst = true },
            new(request) { MeasuredFrom = Now.AddDays(-1).ToTimestamp() },
        ];
        foreach (var other in others)
        {
            var faults = await Rpc.FaultsAsync(
                StatusCode.InvalidArgument, server.Readings.ListReadingsAsync(other, cancellationToken: Token));
            Assert.Equal(["page_token"], faults.Keys);
        }
    }

    [Fact]
    public async Task List_EverythingWrong_IsNamedAtOnce()
    {
        await using var server = await TestServer.StartAsync();
        var text = new string('x', 101);
        var request = new ListReadingsRequest
        {
            PageSize = 1001,
            PageToken = "not a token",
            Line = text,
            Product = text,
            Lot = text,
            Roll = text,
            Specimen = text,
            MeasuredFrom = Now.ToTimestamp(),
            MeasuredBefore = Now.ToTimestamp(),
        };

        var faults = await Rpc.FaultsAsync(StatusCode.InvalidArgument, server.Readings.ListReadingsAsync(request, cancellationToken: Token));

        Assert.Equal(
            ["line", "lot", "measured_before", "page_size", "page_token", "product", "roll", "specimen"],
            faults.Keys.Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData(-62_135_596_801, 0)]
    [InlineData(253_402_300_800, 0)]
    [InlineData(0, -1)]
    [InlineData(0, 1_000_000_000)]
    public async Task List_TimeOutsideTheCalendar_IsInvalidArgument(long seconds, int nanos)
    {
        await using var server = await TestServer.StartAsync();
        var time = new Timestamp { Seconds = seconds, Nanos = nanos };

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument,
            server.Readings.ListReadingsAsync(
                new ListReadingsRequest { MeasuredFrom = time, MeasuredBefore = time, PageSize = -1 }, cancellationToken: Token));

        Assert.Equal(["measured_before", "measured_from", "page_size"], faults.Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task List_OmitSpectra_KeepsConditionsAndValues()
    {
        await using var server = await TestServer.StartAsync();
        await PostAsync(server, 1);
        var full = (await server.Readings.ListReadingsAsync(new ListReadingsRequest(), cancellationToken: Token)).Readings.Single();

        var response = await server.Readings.ListReadingsAsync(new ListReadingsRequest { OmitSpectra = true }, cancellationToken: Token);

        Assert.NotNull(full.Measurement.Scans);
        Assert.NotNull(full.Evaluation.Spectra);
        full.Measurement.Scans = null;
        full.Evaluation.Spectra = null;
        Assert.Equal(full, response.Readings.Single());
    }

    [Fact]
    public async Task List_LongScans_EndThePageBeforeTheClientsMessageLimit()
    {
        await using var server = await TestServer.StartAsync();
        const int count = 60;
        await PostAsync(server, count, measurement =>
        {
            var scans = measurement.Scans.Sphere;
            scans.Grid = new WavelengthGrid { Regular = new RegularGrid { StartNm = 380, StepNm = 0.2, Count = 2001 } };
            foreach (var readings in (Google.Protobuf.Collections.RepeatedField<double>[])
                [scans.IncidentReading, scans.TotalReading, scans.InstrumentScatterReading, scans.SpecimenScatterReading])
            {
                readings.Add(Enumerable.Repeat(readings[0], 2001 - readings.Count));
            }
        });

        var pages = await PagesAsync(server, new ListReadingsRequest { PageSize = 1000 });

        Assert.True(pages.Count > 1);
        Assert.All(pages, page => Assert.InRange(page.CalculateSize(), 1_000_000, 4 * 1024 * 1024));
        Assert.Equal(Enumerable.Range(0, count).Select(i => "S-" + i), Specimens(pages));
    }

    private static async Task PostAsync(TestServer server, int count, Action<Measurement>? change = null)
    {
        await Task.WhenAll(Enumerable.Range(0, count).Select(async i =>
        {
            var measurement = WireExamples.Sphere();
            measurement.Identification = new Identification
            {
                Line = "line " + i % 3,
                Product = "clear 25",
                Lot = "L-1",
                Roll = "R-" + i / 5,
                Specimen = "S-" + i,
            };
            measurement.MeasuredAt = Now.AddHours(-1).AddSeconds(i).ToTimestamp();
            change?.Invoke(measurement);
            await server.Readings.PostReadingAsync(
                new PostReadingRequest { ReadingId = Guid.CreateVersion7().ToString(), Measurement = measurement, Method = WireExamples.Method() },
                cancellationToken: Token);
        }));
    }

    private static async Task<List<ListReadingsResponse>> PagesAsync(TestServer server, ListReadingsRequest request)
    {
        List<ListReadingsResponse> pages = [];
        do
        {
            pages.Add(await server.Readings.ListReadingsAsync(request, cancellationToken: Token));
            request = new ListReadingsRequest(request) { PageToken = pages[^1].NextPageToken };
        }
        while (request.PageToken.Length > 0);
        return pages;
    }

    private static IEnumerable<string> Specimens(IEnumerable<ListReadingsResponse> pages) =>
        pages.SelectMany(page => page.Readings).Select(reading => reading.Measurement.Identification.Specimen);
}

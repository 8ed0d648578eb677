using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

public sealed class ControlChartTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    // By hand: the mean, and the mean moving range over d2(2) = 2/√π, of the haze that the answers gave.
    [Fact]
    public async Task StoreControlChart_FromABaseline_FreezesItsLimits()
    {
        await using var server = await TestServer.StartAsync();
        List<double> haze = [];
        foreach (var (i, value) in ChartExamples.Haze(1, 40).Index())
        {
            var posted = await ChartExamples.PostAsync(server, i, i, value, i % 4 == 3 ? "line 4" : "line 3");
            if (i is >= 5 and < 30 && i % 4 != 3)
            {
                haze.Add(posted.Reading.Evaluation.Values.Single(one => one.Measurand == "haze").Value);
            }
        }

        var request = ChartExamples.Store();
        request.ControlChart.Phases[0].Baseline = new MeasuredSpan { MeasuredFrom = ChartExamples.At(5), MeasuredBefore = ChartExamples.At(30) };
        var stored = await server.ControlCharts.StoreControlChartAsync(request, cancellationToken: Token);

        var limits = stored.ControlChart.ControlChart.Phases[0].Limits;
        var ranges = haze.Zip(haze.Skip(1), (one, next) => Math.Abs(next - one)).ToArray();
        Assert.Equal(haze.Average(), limits.Centre, 1e-12);
        Assert.Equal(ranges.Average() * Math.Sqrt(Math.PI) / 2, limits.StandardDeviation, 1e-9);
        Assert.Equal((uint)haze.Count, limits.BaselineCount);
        Assert.Equal(request.ControlChart.Phases[0].Baseline, limits.Baseline);
        Assert.Contains("moving range", limits.Estimate, StringComparison.Ordinal);
        Assert.Equal((false, 1u), (stored.AlreadyStored, stored.ControlChart.ControlChartName.Version));

        // What came since does not move them.
        await ChartExamples.PostAsync(server, 100, 100, 9);
        var again = await server.ControlCharts.StoreControlChartAsync(request, cancellationToken: Token);
        Assert.Equal((true, stored.ControlChart), (again.AlreadyStored, again.ControlChart));
    }

    [Fact]
    public async Task StoreControlChart_BaselineWithoutReadings_SaysWhy()
    {
        await using var server = await TestServer.StartAsync();
        var request = ChartExamples.Store();
        request.ControlChart.Phases[0].Baseline = new MeasuredSpan();

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument, server.ControlCharts.StoreControlChartAsync(request, cancellationToken: Token));

        Assert.Contains("0 readings", faults["control_chart.phases[0].baseline"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task StoreControlChart_AtFault_NamesEveryField()
    {
        await using var server = await TestServer.StartAsync();

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument,
            server.ControlCharts.StoreControlChartAsync(new StoreControlChartRequest { Name = "A B", ControlChart = new ControlChart() }, cancellationToken: Token));

        Assert.Equal(
            ["control_chart.kind", "control_chart.phases", "control_chart.series", "description", "name", "stored_by"],
            faults.Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task ListControlCharts_ByPages_GivesTheNewestOrAllVersions()
    {
        await using var server = await TestServer.StartAsync();
        foreach (var (name, kind) in new[]
        {
            ("b", ControlChartKind.Individuals), ("a", ControlChartKind.Ewma), ("b", ControlChartKind.Cusum), ("c", ControlChartKind.Ewma),
        })
        {
            await server.ControlCharts.StoreControlChartAsync(ChartExamples.Store(name, kind), cancellationToken: Token);
        }

        Assert.Equal([("a", 1u), ("b", 2u), ("c", 1u)], await ListAsync(server, all: false));
        Assert.Equal([("a", 1u), ("b", 1u), ("b", 2u), ("c", 1u)], await ListAsync(server, all: true));
        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument, server.ControlCharts.ListControlChartsAsync(new ListControlChartsRequest { PageToken = "x", PageSize = 1001 }, cancellationToken: Token));
        Assert.Equal(["page_size", "page_token"], faults.Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task GetControlChart_NotThere_IsNotFoundAndNamesThoseThatAre()
    {
        await using var server = await TestServer.StartAsync();
        await server.ControlCharts.StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);

        var error = await Assert.ThrowsAsync<RpcException>(() => ChartExamples.GetAsync(server, "line-4"));
        Assert.Equal(StatusCode.NotFound, error.StatusCode);
        Assert.Contains("line-3-haze", error.Status.Detail, StringComparison.Ordinal);

        var invalid = await Assert.ThrowsAsync<RpcException>(() => ChartExamples.GetAsync(server, "Line 3"));
        Assert.Equal(StatusCode.InvalidArgument, invalid.StatusCode);
    }

    // The chart drawn over stored readings is the one drawn over the same values brought along.
    [Theory]
    [InlineData(ControlChartKind.Individuals, 0)]
    [InlineData(ControlChartKind.AveragesWithRange, 4)]
    [InlineData(ControlChartKind.Ewma, 0)]
    [InlineData(ControlChartKind.Cusum, 3)]
    public async Task GetControlChart_IsTheChartOfTheSameValues(ControlChartKind kind, int size)
    {
        await using var server = await TestServer.StartAsync();
        var request = ChartExamples.Store(kind: kind);
        request.ControlChart.Subgrouping = size == 0 ? null : new Subgrouping { ConsecutiveCount = (uint)size };
        await server.ControlCharts.StoreControlChartAsync(request, cancellationToken: Token);
        var given = new GivenSeries { Measurand = "haze" };
        foreach (var (i, haze) in ChartExamples.Haze(2, 50).Index())
        {
            var posted = await ChartExamples.PostAsync(server, i, i, haze);
            given.Value.Add(posted.Reading.Evaluation.Values.Single(one => one.Measurand == "haze").Value);
            given.MeasuredAt.Add(ChartExamples.At(i));
        }

        await server.RestartAsync();
        var stored = await ChartExamples.GetAsync(server);
        using var call = server.ControlCharts.DrawControlChart(
            new DrawControlChartRequest { ControlChart = request.ControlChart, Values = given }, cancellationToken: Token);
        var drawn = await call.ResponseStream.ReadAllAsync(Token).Select(response => response.Part).ToListAsync(Token);

        Assert.Equal(drawn[0].Summary, stored[0].Summary);
        Assert.Equal(drawn[1..], stored[1..]);
        Assert.Equal(size == 0 ? 50 : 50 / size, stored[1].Points.Count);
        Assert.Equal(new ControlChartName { Name = "line-3-haze", Version = 1 }, stored[0].ControlChart.ControlChartName);
    }

    [Fact]
    public async Task DrawControlChart_AtFault_NamesEveryField()
    {
        await using var server = await TestServer.StartAsync();
        using var call = server.ControlCharts.DrawControlChart(new DrawControlChartRequest { MostPointsCount = 1 }, cancellationToken: Token);

        var error = await Assert.ThrowsAsync<RpcException>(() => call.ResponseStream.MoveNext(Token));

        Assert.Equal(StatusCode.InvalidArgument, error.StatusCode);
        Assert.Contains("control_chart:", error.Status.Detail, StringComparison.Ordinal);
        Assert.Contains("values:", error.Status.Detail, StringComparison.Ordinal);
        Assert.Contains("most_points_count:", error.Status.Detail, StringComparison.Ordinal);
    }

    private static async Task<List<(string, uint)>> ListAsync(TestServer server, bool all)
    {
        List<(string, uint)> names = [];
        var request = new ListControlChartsRequest { PageSize = 2, AllVersions = all };
        do
        {
            var page = await server.ControlCharts.ListControlChartsAsync(request, cancellationToken: Token);
            names.AddRange(page.ControlCharts.Select(chart => (chart.ControlChartName.Name, chart.ControlChartName.Version)));
            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);
        return names;
    }
}

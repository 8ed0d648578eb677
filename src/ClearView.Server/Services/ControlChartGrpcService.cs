using ClearView.Contract.ControlCharts;
using ClearView.Contract.Validation;
using ClearView.Quality.Series;
using ClearView.Records.Model;
using ClearView.Server.Hosting;
using ClearView.Server.Live;
using ClearView.Server.Mapping;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>Control charts, on the wire.</summary>
internal sealed class ControlChartGrpcService(
    [FromKeyedServices(VersionedKind.ControlChart)] IVersionedStore store,
    ISeriesStore series,
    LiveCharts live,
    OpenStreams openStreams,
    ILogger<ControlChartGrpcService> logger)
    : ControlChartService.ControlChartServiceBase
{
    public override async Task<StoreControlChartResponse> StoreControlChart(StoreControlChartRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        ControlChartRules.Check(request, violations);
        ThrowIfAny(violations);
        var frozen = await FreezeAsync(request.ControlChart, violations, context.CancellationToken).ConfigureAwait(false);
        ThrowIfAny(violations);

        // What was accepted is stored whether or not its sender still waits.
        var outcome = await store.StoreAsync(NamedControlCharts.ToEntry(request, frozen), CancellationToken.None).ConfigureAwait(false);

        // Also where another server stored it: a version that is watched already is passed over.
        await live.TakeAsync(outcome.Version).ConfigureAwait(false);
        if (!outcome.AlreadyStored)
        {
            ControlChartLog.Stored(logger, request.Name, outcome.Version.Version);
        }

        return new StoreControlChartResponse
        {
            ControlChart = NamedControlCharts.ToNamedControlChart(outcome.Version),
            AlreadyStored = outcome.AlreadyStored,
        };
    }

    public override async Task<ListControlChartsResponse> ListControlCharts(ListControlChartsRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var query = VersionPages.Read(VersionedKind.ControlChart, request.PageSize, request.PageToken, request.AllVersions, violations);
        FieldFaults.ThrowIfAny(violations);
        var page = await store.ListAsync(query, context.CancellationToken).ConfigureAwait(false);
        return new ListControlChartsResponse
        {
            ControlCharts = { page.Versions.Select(NamedControlCharts.ToNamedControlChart) },
            NextPageToken = VersionPages.NextToken(page, VersionedKind.ControlChart, request.AllVersions),
        };
    }

    public override async Task GetControlChart(
        GetControlChartRequest request, IServerStreamWriter<GetControlChartResponse> responseStream, ServerCallContext context)
    {
        openStreams.Add(context.GetHttpContext().Response);
        var violations = new Violations();
        ControlChartRules.Check(request, violations);
        ThrowIfAny(violations);
        var name = request.ControlChartName;
        var stored = await StoredDocuments.FindAsync(store, "control chart", name.Name, name.Version, [], context.CancellationToken).ConfigureAwait(false);
        var named = NamedControlCharts.ToNamedControlChart(stored);

        // Readings after the stretch are read as well: late ones are told from them.
        var chart = named.ControlChart;
        var query = ChartQueries.Read(chart, ControlChartReader.BeginningFor(chart, request.Span));
        var readings = await ReadAsync(chart, query, context.CancellationToken).ConfigureAwait(false);
        var parts = ControlChartDrawer.Draw(named, readings, request.Span, ControlChartRules.MostPointsOf(request.MostPointsCount));
        foreach (var part in parts)
        {
            await openStreams.WriteAsync(responseStream, new GetControlChartResponse { Part = part }, context).ConfigureAwait(false);
        }

        ControlChartLog.Drawn(logger, named.ControlChartName.Name, named.ControlChartName.Version, readings.Count);
    }

    public override async Task DrawControlChart(
        DrawControlChartRequest request, IServerStreamWriter<DrawControlChartResponse> responseStream, ServerCallContext context)
    {
        openStreams.Add(context.GetHttpContext().Response);
        var violations = new Violations();
        var parts = GivenControlChart.Draw(request, violations);
        ThrowIfAny(violations);
        foreach (var part in parts!)
        {
            await openStreams.WriteAsync(responseStream, new DrawControlChartResponse { Part = part }, context).ConfigureAwait(false);
        }
    }

    private async Task<ControlChart> FreezeAsync(ControlChart chart, Violations violations, CancellationToken cancellationToken)
    {
        var limits = new FrozenLimits?[chart.Phases.Count];
        for (var i = 0; i < limits.Length; i++)
        {
            if (chart.Phases[i].Baseline is { } baseline)
            {
                var query = ChartQueries.Read(chart, baseline.MeasuredFrom, baseline.MeasuredBefore);
                var readings = await ReadAsync(chart, query, cancellationToken).ConfigureAwait(false);
                limits[i] = BaselineFreezer.Freeze(chart, i, readings, "control_chart", violations);
            }
        }

        return BaselineFreezer.WithLimits(chart, limits);
    }

    private Task<SeriesColumns> ReadAsync(ControlChart chart, SeriesQuery query, CancellationToken cancellationToken) =>
        series.ReadColumnsAsync(query, ControlChartReader.PartsOf(chart), cancellationToken);

    private void ThrowIfAny(Violations violations)
    {
        if (!violations.IsEmpty)
        {
            var found = violations.ToImmutable();
            ControlChartLog.Refused(logger, found.Length, found[0].Field);
            throw FieldFaults.Invalid(found);
        }
    }
}

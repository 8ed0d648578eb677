using ClearView.V1;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

/// <summary>Control charts that answer as they are told.</summary>
internal sealed class FakeControlCharts(DecisionLog log) : ControlChartService.ControlChartServiceBase
{
    public override Task<StoreControlChartResponse> StoreControlChart(StoreControlChartRequest request, ServerCallContext context)
    {
        log.Take(request);
        return Task.FromResult(new StoreControlChartResponse());
    }

    public override Task<ListControlChartsResponse> ListControlCharts(ListControlChartsRequest request, ServerCallContext context)
    {
        log.Take(request);
        return Task.FromResult(new ListControlChartsResponse { ControlCharts = { new NamedControlChart() } });
    }

    public override Task GetControlChart(GetControlChartRequest request, IServerStreamWriter<GetControlChartResponse> responseStream, ServerCallContext context)
    {
        log.Take(request);
        return log.SendAsync(responseStream, new GetControlChartResponse { Part = new DrawnControlChart() }, new GetControlChartResponse { Part = new DrawnControlChart() });
    }

    public override Task DrawControlChart(DrawControlChartRequest request, IServerStreamWriter<DrawControlChartResponse> responseStream, ServerCallContext context)
    {
        log.Take(request);
        return log.SendAsync(responseStream, new DrawControlChartResponse { Part = new DrawnControlChart() }, new DrawControlChartResponse { Part = new DrawnControlChart() });
    }
}

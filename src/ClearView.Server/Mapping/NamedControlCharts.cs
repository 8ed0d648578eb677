using ClearView.Records.Model;
using ClearView.V1;

using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;

namespace ClearView.Server.Mapping;

/// <summary>Control charts under names: from the wire to the store and back.</summary>
internal static class NamedControlCharts
{
    /// <summary>The store's form of a chart that was checked and has its limits.</summary>
    public static VersionedEntry ToEntry(StoreControlChartRequest request, ControlChart frozen) => new()
    {
        Name = request.Name,
        Description = request.Description,
        Body = frozen.ToByteArray(),
        StoredBy = request.StoredBy,
    };

    /// <summary>The wire's form of a stored chart.</summary>
    public static NamedControlChart ToNamedControlChart(StoredVersion stored) => new()
    {
        ControlChartName = new ControlChartName { Name = stored.Entry.Name, Version = (uint)stored.Version },
        Description = stored.Entry.Description,
        ControlChart = ControlChart.Parser.ParseFrom(stored.Entry.Body.Span),
        StoredBy = stored.Entry.StoredBy,
        StoredAt = stored.StoredAt.ToTimestamp(),
    };
}

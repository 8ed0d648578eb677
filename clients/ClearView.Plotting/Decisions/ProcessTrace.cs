using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Plotting.Decisions;

/// <summary>The parts of a drawn control chart put together, with its places on the horizontal axis.</summary>
internal sealed class ProcessTrace
{
    private const double RoomShare = 0.025;
    private const double LoneRoomHours = 0.5;

    private readonly DateTime _first;

    private ProcessTrace(IReadOnlyList<DrawnControlChart> parts)
    {
        DrawnControlChart head = parts.FirstOrDefault(part => part.ControlChart?.ControlChart is not null && part.Summary is not null)
            ?? throw new ChartRefusedException("No part holds the chart with its summary; the first part of the answer is needed.");
        (Named, Chart, Summary) = (head.ControlChart, head.ControlChart.ControlChart, head.Summary);
        Points = [.. parts.SelectMany(part => part.Points)];
        Stretches = [.. parts.SelectMany(part => part.Stretches)];
        if (Points.Length == 0 && Stretches.Length == 0)
        {
            throw new ChartRefusedException("The control chart has no point: nothing is stored for its series, or no subgroup is finished yet.");
        }

        DateTime[] times =
        [
            .. Points.Select(point => Time(point.MeasuredAt)),
            .. Stretches.SelectMany(stretch => new[] { Time(stretch.MeasuredFrom), Time(stretch.MeasuredTo) }),
        ];
        _first = times.Min();
        DateTime last = times.Max();
        double hours = (last - _first).TotalHours;
        double room = hours > 0 ? RoomShare * hours : LoneRoomHours;
        Axis = TimeAxis.Over(_first, last, _first.AddHours(-room), last.AddHours(room));
    }

    public NamedControlChart Named { get; }

    public ControlChart Chart { get; }

    public ControlChartSummary Summary { get; }

    /// <summary>All points, or only those with signals where there are stretches.</summary>
    public ControlChartPoint[] Points { get; }

    public ControlChartStretch[] Stretches { get; }

    public AxisModel Axis { get; }

    public bool Thinned => Stretches.Length > 0;

    public bool IsCusum => Chart.Kind == ControlChartKind.Cusum;

    public static ProcessTrace Of(IReadOnlyList<DrawnControlChart> parts) => new(parts);

    public double X(Timestamp? time) => (Time(time) - _first).TotalHours;

    public double X(ControlChartPoint point) => X(point.MeasuredAt);

    public double Middle(ControlChartStretch stretch) => (X(stretch.MeasuredFrom) + X(stretch.MeasuredTo)) / 2;

    /// <summary>Name of a phase.</summary>
    public string PhaseName(int phase) => phase < Chart.Phases.Count ? Chart.Phases[phase].Name : "";

    /// <summary>The limits of what is plotted, step by step.</summary>
    public LimitStep[] Limits() => Thinned
        ? Steps([.. Stretches.Select(s => (Middle(s), (int)s.PhaseCount, s.Lower, IsCusum ? 0 : s.Centre, s.Upper))])
        : Steps([.. Points.Select(p => (X(p), (int)p.PhaseCount, p.Lower, IsCusum ? 0 : p.Centre, p.Upper))]);

    /// <summary>The limits of the spread, step by step; no lower one where it is 0, which nothing can fall below.</summary>
    public LimitStep[] SpreadLimits() => Steps(
    [
        .. Points.Where(p => p.HasSpread).Select(p => (
            X(p),
            (int)p.PhaseCount,
            p.HasSpreadLower && p.SpreadLower > 0 ? p.SpreadLower : double.NaN,
            p.HasSpreadCentre ? p.SpreadCentre : double.NaN,
            p.HasSpreadUpper ? p.SpreadUpper : double.NaN)),
    ]);

    /// <summary>Half-way between neighbours limits change, and phases too.</summary>
    private LimitStep[] Steps((double X, int Phase, double Lower, double Centre, double Upper)[] at) =>
    [
        .. at.Select((one, i) => new LimitStep(
            i == 0 ? Axis.Minimum : (at[i - 1].X + one.X) / 2,
            i == at.Length - 1 ? Axis.Maximum : (one.X + at[i + 1].X) / 2,
            one.Phase,
            one.Lower,
            one.Centre,
            one.Upper)),
    ];

    private static DateTime Time(Timestamp? time) => time?.ToDateTime() ?? DateTime.UnixEpoch;
}

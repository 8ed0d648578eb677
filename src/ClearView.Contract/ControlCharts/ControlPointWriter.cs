using ClearView.Quality.ControlCharts;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Contract.ControlCharts;

/// <summary>Writes points of a chart.</summary>
internal static class ControlPointWriter
{
    public static ControlChartPoint Write(in FedPoint fed, long position, DrawnSeries drawn)
    {
        ControlPoint point = fed.Point;
        ControlLimits limits = drawn.Definition.Phases[fed.Phase].Limits;
        ControlChartPoint written = new()
        {
            PositionCount = (ulong)position,
            MeasuredAt = fed.MeasuredAt.ToTimestamp(),
            PhaseCount = (uint)fed.Phase,
            ReadingCount = (uint)fed.ReadingCount,
            Value = point.Value,
            Plotted = point.Plotted,
            Lower = point.Limits.Lower,
            Centre = point.Limits.Centre,
            Upper = point.Limits.Upper,
            Label = fed.Label,
            Late = drawn.Late.IsAnyLate(fed.FirstReading, fed.ReadingCount),
        };
        written.Patterns.AddRange(ControlPatterns.Of(point.Signals));
        if (double.IsFinite(point.Spread) && limits.ForSpread(fed.ReadingCount) is { } spread)
        {
            written.Spread = point.Spread;
            written.SpreadLower = spread.Lower;
            written.SpreadCentre = spread.Centre;
            written.SpreadUpper = spread.Upper;
        }

        if (limits.Kind == Quality.ControlCharts.ControlChartKind.Cusum)
        {
            written.SumAbove = point.SumAbove;
            written.SumBelow = point.SumBelow;
        }

        return written;
    }
}

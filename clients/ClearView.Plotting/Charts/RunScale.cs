using ClearView.Plotting.Model;

namespace ClearView.Plotting.Charts;

/// <summary>The horizontal axis of a run: time of measurement, or the sequence where the times do not tell readings apart.</summary>
internal sealed class RunScale
{
    private const double RoomShare = 0.008;

    private readonly DateTime? _origin;
    private readonly double _halfStep;

    private RunScale(DateTime? origin, double halfStep, AxisModel axis)
    {
        _origin = origin;
        _halfStep = halfStep;
        Axis = axis;
    }

    public AxisModel Axis { get; }

    public static RunScale Of(RunPoint[] run)
    {
        DateTime first = run[0].Reading.MeasuredAtUtc;
        DateTime last = run[^1].Reading.MeasuredAtUtc;
        bool timed = run.Length > 1 && run.Select(p => p.Reading.MeasuredAtUtc).Distinct().Count() > run.Length / 2;
        if (!timed)
        {
            return new RunScale(null, 0.5, new AxisModel("Reading, in sequence", 0.5, run.Length + 0.5));
        }

        double hours = (last - first).TotalHours;
        double halfStep = hours / (run.Length - 1) / 2;
        double room = Math.Max(halfStep, RoomShare * hours);
        return new RunScale(first, halfStep, TimeAxis.Over(first, last, first.AddHours(-room), last.AddHours(room)));
    }

    public ChartPoint Place(RunPoint point) => new(X(point), point.Number);

    public double Start(RunRoll roll) => X(roll.Points[0]);

    public double End(RunRoll roll) => X(roll.Points[^1]);

    /// <summary>A roll's band begins half-way to the roll before it.</summary>
    public double BandStart(RunRoll[] rolls, int index) =>
        index == 0 ? Axis.Minimum : (End(rolls[index - 1]) + Start(rolls[index])) / 2;

    /// <summary>A roll's band ends half-way to the roll after it.</summary>
    public double BandEnd(RunRoll[] rolls, int index) =>
        index == rolls.Length - 1 ? Axis.Maximum : BandStart(rolls, index + 1);

    private double X(RunPoint point) => _origin is { } origin
        ? (point.Reading.MeasuredAtUtc - origin).TotalHours
        : point.Index + (2 * _halfStep);
}

using System.Collections.Immutable;
using System.Globalization;

using ClearView.Plotting.Model;

namespace ClearView.Plotting.Charts;

/// <summary>An axis of time: hours since the first reading inside, clock times outside.</summary>
internal static class TimeAxis
{
    private const int MostTicks = 9;

    private static readonly ImmutableArray<TimeSpan> Steps =
    [
        .. new double[] { 1, 5, 15, 60, 300, 600, 900, 1800, 3600, 7200, 10800, 21600, 43200, 86400, 172800, 259200, 604800 }
            .Select(TimeSpan.FromSeconds),
    ];

    /// <summary>The axis from <paramref name="from"/> to <paramref name="to"/>, its origin at <paramref name="first"/>.</summary>
    public static AxisModel Over(DateTime first, DateTime last, DateTime from, DateTime to)
    {
        TimeSpan step = Steps.FirstOrDefault(s => (to - from) / s <= MostTicks, TimeSpan.FromDays(Math.Ceiling((to - from).TotalDays / MostTicks)));
        bool sameDay = first.Date == last.Date;
        string format = step < TimeSpan.FromMinutes(1) ? "HH:mm:ss" : step < TimeSpan.FromDays(1) ? "HH:mm" : "d MMM";
        var ticks = ImmutableArray.CreateBuilder<AxisTick>();
        long firstTick = ((from.Ticks + step.Ticks - 1) / step.Ticks) * step.Ticks;
        for (long at = firstTick; at <= to.Ticks; at += step.Ticks)
        {
            var time = new DateTime(at, DateTimeKind.Utc);
            bool showDay = !sameDay && step < TimeSpan.FromDays(1) && (at == firstTick || time.TimeOfDay < step);
            string day = showDay ? time.ToString("'\n'd MMM", CultureInfo.InvariantCulture) : "";
            ticks.Add(new AxisTick((time - first).TotalHours, time.ToString(format, CultureInfo.InvariantCulture) + day));
        }

        string date = sameDay ? first.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)
            : $"{first.ToString(first.Year == last.Year ? "d MMMM" : "d MMMM yyyy", CultureInfo.InvariantCulture)} to {last.ToString("d MMMM yyyy", CultureInfo.InvariantCulture)}";
        return new AxisModel($"Time of measurement (UTC), {date}", (from - first).TotalHours, (to - first).TotalHours)
        {
            Ticks = ticks.ToImmutable(),
        };
    }
}

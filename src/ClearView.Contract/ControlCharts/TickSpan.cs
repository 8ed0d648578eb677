using ClearView.V1;

namespace ClearView.Contract.ControlCharts;

/// <summary>A stretch of time in units of 100 ns since 0001-01-01 UTC.</summary>
/// <param name="From">Measured then or later.</param>
/// <param name="Before">Measured before.</param>
internal readonly record struct TickSpan(long From, long Before)
{
    /// <summary>The stretch of a message that was checked; an absent end is open.</summary>
    public static TickSpan Of(MeasuredSpan? span) => new(
        span?.MeasuredFrom?.ToDateTimeOffset().UtcTicks ?? long.MinValue,
        span?.MeasuredBefore?.ToDateTimeOffset().UtcTicks ?? long.MaxValue);

    /// <summary>The places of its readings among ascending times.</summary>
    public Range PlacesIn(ReadOnlySpan<long> times) => PlaceOf(times, From)..PlaceOf(times, Before);

    private static int PlaceOf(ReadOnlySpan<long> times, long ticks)
    {
        int low = 0;
        int high = times.Length;
        while (low < high)
        {
            int middle = low + ((high - low) / 2);
            (low, high) = times[middle] < ticks ? (middle + 1, high) : (low, middle);
        }

        return low;
    }
}

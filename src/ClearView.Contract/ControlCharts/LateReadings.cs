using System.Collections;

using ClearView.Quality.Series;

namespace ClearView.Contract.ControlCharts;

/// <summary>Which readings of a series came late: a reading that was measured after them had been recorded before them.</summary>
internal sealed class LateReadings
{
    private readonly BitArray? _late;

    private LateReadings(BitArray? late) => _late = late;

    public static LateReadings Of(SeriesColumns series)
    {
        ReadOnlySpan<long> order = series.RecordedOrder;
        int inOrder = 1;
        while (inOrder < order.Length && order[inOrder] > order[inOrder - 1])
        {
            inOrder++;
        }

        if (inOrder >= order.Length)
        {
            return new LateReadings(null);
        }

        BitArray late = new(order.Length);
        long earliest = long.MaxValue;
        for (int i = order.Length - 1; i >= 0; i--)
        {
            late[i] = order[i] > earliest;
            earliest = Math.Min(earliest, order[i]);
        }

        return new LateReadings(late);
    }

    /// <summary>Whether a reading is late.</summary>
    public bool IsLate(long place) => _late is not null && _late[(int)place];

    /// <summary>Whether one of so many readings is late.</summary>
    public bool IsAnyLate(long first, int count)
    {
        for (int i = 0; _late is not null && i < count; i++)
        {
            if (_late[(int)first + i])
            {
                return true;
            }
        }

        return false;
    }
}

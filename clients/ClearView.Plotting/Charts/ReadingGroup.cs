using System.Collections.Immutable;

namespace ClearView.Plotting.Charts;

/// <summary>Readings that share a mark.</summary>
/// <param name="Label">Name in the legend.</param>
/// <param name="Readings">The readings, at least one, by time.</param>
internal sealed record ReadingGroup(string Label, ImmutableArray<ChartReading> Readings)
{
    /// <summary>Groups by product, else by roll, else by specimen, whichever first tells readings apart with few enough marks.</summary>
    /// <param name="readings">The readings, at least one.</param>
    /// <param name="most">Most groups that can be told apart.</param>
    public static ImmutableArray<ReadingGroup> Split(IReadOnlyList<ChartReading> readings, int most)
    {
        Func<ChartReading, string>[] ways =
        [
            reading => reading.Product.Length > 0 ? reading.Product : "no product",
            reading => reading.Roll.Length > 0 ? $"roll {reading.Roll}" : "no roll",
            reading => $"specimen {reading.Specimen}",
        ];
        ChartReading[] ordered = [.. readings.OrderBy(reading => reading.MeasuredAtUtc)];
        foreach (Func<ChartReading, string> way in ways)
        {
            ReadingGroup[] groups = [.. ordered.GroupBy(way, StringComparer.Ordinal).Select(group => new ReadingGroup(group.Key, [.. group]))];
            if (groups.Length > 1 && groups.Length <= most)
            {
                return [.. groups];
            }
        }

        string only = readings.Count == 1 ? $"specimen {readings[0].Specimen}" : $"{readings.Count} readings";
        return [new ReadingGroup(only, [.. ordered])];
    }
}

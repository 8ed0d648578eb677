using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;
using ClearView.Quality.Series;
using ClearView.V1;

using Google.Protobuf.Collections;
using Google.Protobuf.WellKnownTypes;

namespace ClearView.Contract.Series;

/// <summary>Reads a series that the caller brought along.</summary>
public static class SeriesReader
{
    /// <summary>Most values of one request.</summary>
    public const int MostValues = 200_000;

    // Places of readings have the same bounds where they are recorded.
    private const double MostAcrossMm = 20_000;
    private const double MostAlongM = 1_000_000;

    /// <summary>Checks every field and puts the readings in the order of their times; of equal times the order given is kept.</summary>
    /// <param name="given">The series as it came. Without times the values count as measured one second apart.</param>
    /// <param name="parts">What to keep beside the values; the recorded order is that given.</param>
    /// <param name="path">Path of the field, for violations.</param>
    /// <param name="violations">Takes what is at fault.</param>
    /// <returns>The series; <see langword="null"/> when something of it is at fault.</returns>
    public static MeasuredSeries? Read(GivenSeries given, SeriesParts parts, string path, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(given);
        ArgumentNullException.ThrowIfNull(violations);
        var own = new Violations();
        Measurand? measurand = SeriesMeasurandRules.Read(given.Measurand, $"{path}.measurand", own);
        int count = given.Value.Count;
        if (count is 0 or > MostValues)
        {
            own.Add($"{path}.value", $"had {count} values; expected 1 to {MostValues}.");
            violations.AddAll(own);
            return null;
        }

        for (int i = 0; i < count; i++)
        {
            if (!FieldRules.IsFigure(given.Value[i]))
            {
                own.RequireFigure($"{path}.value[{i}]", given.Value[i]);
            }
        }

        long[]? times = ReadTimes(given.MeasuredAt, count, $"{path}.measured_at", own);
        if (HasAll(given.Label, count, $"{path}.label", own))
        {
            for (int i = 0; i < count; i++)
            {
                own.CheckText($"{path}.label[{i}]", given.Label[i]);
            }
        }

        CheckPlaces(given.AcrossMm, count, MostAcrossMm, "mm", $"{path}.across_mm", own);
        CheckPlaces(given.AlongM, count, MostAlongM, "m", $"{path}.along_m", own);
        violations.AddAll(own);
        return own.IsEmpty ? new MeasuredSeries(measurand!, Arrange(given, times!, parts)) : null;
    }

    private static bool HasAll<T>(ICollection<T> column, int count, string path, Violations violations)
    {
        if (column.Count == 0)
        {
            return false;
        }

        if (column.Count != count)
        {
            violations.Add(path, $"had {column.Count} entries; expected none, or {count}, one per value.");
            return false;
        }

        return true;
    }

    private static long[]? ReadTimes(RepeatedField<Timestamp> measuredAt, int count, string path, Violations violations)
    {
        long[] times = new long[count];
        if (measuredAt.Count == 0)
        {
            for (int i = 0; i < count; i++)
            {
                times[i] = DateTime.UnixEpoch.Ticks + (i * TimeSpan.TicksPerSecond);
            }

            return times;
        }

        if (!HasAll(measuredAt, count, path, violations))
        {
            return null;
        }

        for (int i = 0; i < count; i++)
        {
            times[i] = TimestampRules.ReadTicks(measuredAt[i], $"{path}[{i}]", violations) ?? 0;
        }

        return times;
    }

    // NaN is a value without a place, as a series keeps it.
    private static void CheckPlaces(RepeatedField<double> places, int count, double most, string unit, string path, Violations violations)
    {
        if (!HasAll(places, count, path, violations))
        {
            return;
        }

        for (int i = 0; i < count; i++)
        {
            if (places[i] < 0 || places[i] > most)
            {
                violations.Add($"{path}[{i}]", $"was {places[i]}; expected 0 to {most} {unit}, or NaN for a value without a place.");
            }
        }
    }

    private static SeriesColumns Arrange(GivenSeries given, long[] times, SeriesParts parts)
    {
        var columns = new SeriesColumns(parts);
        foreach (int i in OrderOf(times))
        {
            columns.Add(new SeriesReading(
                times[i],
                i,
                given.Value[i],
                given.Label.Count > 0 ? given.Label[i] : "",
                given.AcrossMm.Count > 0 ? given.AcrossMm[i] : double.NaN,
                given.AlongM.Count > 0 ? given.AlongM[i] : double.NaN));
        }

        return columns;
    }

    // The sort of arrays is not stable, so that the place decides between equal times.
    private static int[] OrderOf(long[] times)
    {
        int[] order = [.. Enumerable.Range(0, times.Length)];
        for (int i = 1; i < times.Length; i++)
        {
            if (times[i] < times[i - 1])
            {
                Array.Sort(order, (left, right) => times[left] != times[right] ? times[left].CompareTo(times[right]) : left.CompareTo(right));
                break;
            }
        }

        return order;
    }
}

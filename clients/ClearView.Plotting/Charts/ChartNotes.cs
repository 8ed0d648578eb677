using System.Collections.Immutable;

using ClearView.V1;

namespace ClearView.Plotting.Charts;

/// <summary>The caveats of the readings that a chart shows.</summary>
internal static class ChartNotes
{
    private const int MostNotes = 3;

    /// <summary>Each kind of caveat once, with the number of readings it touches where there are several.</summary>
    public static ImmutableArray<string> Of(IReadOnlyList<ChartReading> readings, params string[] measurands)
    {
        string[] notes =
        [
            .. readings
                .SelectMany(reading => reading.Evaluation.Caveats)
                .Where(caveat => Touches(caveat, measurands))
                .GroupBy(caveat => caveat.Code)
                .Select(group => Note(group, readings.Count)),
        ];
        return notes.Length <= MostNotes
            ? [.. notes]
            : [.. notes.Take(MostNotes - 1), $"Note: {notes.Length - MostNotes + 1} further caveats; see the readings."];
    }

    private static string Note(IGrouping<CaveatCode, Caveat> group, int readings)
    {
        string touched = readings == 1 ? "" : group.Count() == readings ? $" (all {readings} readings)" : $" ({group.Count()} of {readings} readings)";
        string example = group.Select(caveat => caveat.Message).Distinct().Count() > 1 ? ", for example:" : ":";
        return $"Note{touched}{example} {group.First().Message}";
    }

    private static bool Touches(Caveat caveat, string[] measurands) =>
        measurands.Length == 0 || caveat.Measurands.Count == 0 || caveat.Measurands.Any(measurands.Contains);
}

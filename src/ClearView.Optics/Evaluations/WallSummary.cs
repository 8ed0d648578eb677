using System.Collections.Immutable;

namespace ClearView.Optics.Evaluations;

/// <summary>One measurand over a region of a bottle's wall.</summary>
/// <param name="Region">The region, in the user's words.</param>
/// <param name="Minimum">Smallest value.</param>
/// <param name="Mean">Mean.</param>
/// <param name="Maximum">Greatest value.</param>
/// <param name="ThinnestUm">Thinnest wall, µm; <see langword="null"/> where no thickness was recorded.</param>
/// <param name="AtThinnest">Value at the thinnest wall; <see langword="null"/> where no thickness was recorded.</param>
/// <param name="Count">Number of readings.</param>
public sealed record WallSummary(
    string Region, double Minimum, double Mean, double Maximum, double? ThinnestUm, double? AtThinnest, int Count)
{
    /// <summary>Summarises readings by region, in order of first appearance.</summary>
    /// <param name="readings">Region, value, and thickness in µm where it was recorded.</param>
    public static ImmutableArray<WallSummary> Of(IEnumerable<(string Region, double Value, double? ThicknessUm)> readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        return
        [
            .. readings.GroupBy(reading => reading.Region).Select(group =>
            {
                var thinnest = group.Where(reading => reading.ThicknessUm is not null).OrderBy(reading => reading.ThicknessUm).ToArray();
                return new WallSummary(
                    group.Key,
                    group.Min(reading => reading.Value),
                    group.Average(reading => reading.Value),
                    group.Max(reading => reading.Value),
                    thinnest is [var first, ..] ? first.ThicknessUm : null,
                    thinnest is [var thin, ..] ? thin.Value : null,
                    group.Count());
            }),
        ];
    }
}

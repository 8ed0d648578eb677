using System.Collections.Immutable;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>A roll across (CD) and along (MD): the map, the profile across, the trend along, and what varies.</summary>
public static class RollMapChart
{
    private const float PanelsPt = 430;

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="map">The roll.</param>
    /// <exception cref="ChartRefusedException">The map has no cell, or none with a reading.</exception>
    public static ChartModel Build(RollMap map)
    {
        ArgumentNullException.ThrowIfNull(map);
        RollCells cells = RollCells.Of(map);
        var chart = new ChartModel
        {
            Title = $"Roll map: {ProcessWords.Lower(map.Name)}",
            Subtitle = $"{map.ReadingCount} readings in {Count(map.LaneCount, "lane")} across and {Count(map.BlockCount, "block")} along{Outcome(map)}",
            Arrangement = PanelArrangement.Grid,
            ColumnWeights = [2.1, 1],
            RowWeights = [1.75, 1],
            Panels = [RollPanel.Map(map, cells), RollPanel.Across(map), RollPanel.Along(map, cells), RollPanel.Scale(map, cells)],
            Notes = Notes(map),
            Footer = Footer(map),
        };
        return chart with { HeightPt = MathF.Ceiling(PanelsPt + ChartPainter.RoomOutsidePanels(chart)) };
    }

    private static string Outcome(RollMap map) => map.Outcome == VerdictOutcome.Unspecified ? "" : $": {OutcomeWords.Of(map.Outcome)}";

    private static ImmutableArray<string> Notes(RollMap map) =>
    [
        .. map.Reason.Length > 0 ? [$"{Capital(OutcomeWords.Of(map.Outcome))}: {map.Reason}"] : ImmutableArray<string>.Empty,
        .. map.UnplacedReadingCount > 0 ? [$"{map.UnplacedReadingCount} readings without a place on the web are not counted."] : ImmutableArray<string>.Empty,
    ];

    private static ImmutableArray<string> Footer(RollMap map)
    {
        string unit = Wording.Suffix(map.Unit);
        string whole = map.HasMean && map.HasStandardDeviation
            ? $"Mean {Digits.Beside(map.Mean, map.StandardDeviation)}{unit}, s {Digits.Two(map.StandardDeviation)}{unit}. "
            : "";
        return
        [
            whole + Variance(map),
            .. map.StreakTest.Length > 0 ? [$"Streaks: {map.StreakTest}"] : ImmutableArray<string>.Empty,
        ];
    }

    private static string Variance(RollMap map)
    {
        if (map.Variance is not { } variance)
        {
            return "Components of variance cannot be told apart.";
        }

        (string Name, double Value)[] parts = [("along (MD)", variance.Along), ("across (CD)", variance.Across), ("residual", variance.Residual)];
        double total = parts.Sum(part => Math.Max(0, part.Value));
        string unit = map.Unit.Length > 0 ? $" {map.Unit}²" : "";
        return "Components of variance: " + string.Join(", ", parts.Select(part =>
            $"{part.Name} {Digits.Two(part.Value)}{unit}{(total > 0 ? $" ({Wording.Number(Math.Round(100 * Math.Max(0, part.Value) / total))} %)" : "")}")) + ".";
    }

    private static string Count(uint count, string noun) => $"{count} {noun}{(count == 1 ? "" : "s")}";

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}

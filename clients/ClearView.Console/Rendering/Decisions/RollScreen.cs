using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering.Decisions;

/// <summary>A roll: verdict, profile across (CD), trend along (MD), streaks and components of variance.</summary>
internal static class RollScreen
{
    private const int BarWidth = 12;

    /// <summary>Writes it.</summary>
    public static void Write(Screen screen, RollMap map)
    {
        MethodPanel.WriteMarkupRows(screen, Rows(map));
        WriteLanes(screen, map);
        if (map.StreakTest.Length > 0)
        {
            screen.Line(Markup.Escape(map.StreakTest));
        }
        if (map.Outcome != VerdictOutcome.Unspecified)
        {
            screen.Line();
            screen.Line($"[bold]Verdict[/]: {DecisionText.Outcome(map.Outcome)}");
            DecisionText.WriteSentences(screen, [map.Reason]);
        }
    }

    private static IEnumerable<(string Label, string Markup)> Rows(RollMap map)
    {
        yield return ("Measurand", Markup.Escape(map.Name));
        if (map.Limits is { } limits)
        {
            yield return ("Limits", Markup.Escape(DecisionText.Bounds(limits, map.Unit)));
        }
        yield return ("Mapped", $"{NumberText.Fixed(map.AcrossFromMm, 0)} to {NumberText.Fixed(map.AcrossToMm, 0)} mm across in {VerdictText.Counted((int)map.LaneCount, "lane")}, "
            + $"{NumberText.Fixed(map.AlongFromM, 0)} to {NumberText.Fixed(map.AlongToM, 0)} m along in {VerdictText.Counted((int)map.BlockCount, "block")}");
        yield return ("Readings", $"{NumberText.Plain(map.ReadingCount)}"
            + (map.UnplacedReadingCount > 0 ? $"; {NumberText.Plain(map.UnplacedReadingCount)} more without a place are not counted" : "")
            + (map.Limits is not null ? $"; {NumberText.Plain(map.OutsideReadingCount)} beyond a limit" : ""));
        if (map.HasMean)
        {
            yield return ("Mean", Markup.Escape($"{Number(map, map.Mean, true)}{(map.HasStandardDeviation ? $", standard deviation {Number(map, map.StandardDeviation, true)}" : "")}"));
        }
        if (map.Smallest is { } smallest && map.Largest is { } largest)
        {
            yield return ("Smallest, largest", Markup.Escape($"{Placed(map, smallest)}; {Placed(map, largest)}"));
        }
        if (map.Trend is { } trend)
        {
            yield return ("Trend along (MD)", Trend(map, trend));
        }
        if (map.Variance is { } variance)
        {
            yield return ("Spread (as s)", Markup.Escape($"along (MD) {Root(map, variance.Along)}, across (CD) {Root(map, variance.Across)}, beyond both {Root(map, variance.Residual)}"));
        }
    }

    private static void WriteLanes(Screen screen, RollMap map)
    {
        var known = map.Lanes.Where(lane => lane.HasMean).ToList();
        if (known.Count == 0)
        {
            return;
        }
        var (least, most) = (known.Min(lane => lane.Mean), known.Max(lane => lane.Mean));
        var table = new DataTable().Numbers("Lane at\nmm", "n", "Mean", "Interval", "s along").Words("Profile across").Words("Streak");
        foreach (var lane in map.Lanes)
        {
            table.Row(
                NumberText.Fixed(lane.MiddleMm, 0),
                NumberText.Plain(lane.ReadingCount),
                lane.HasMean ? Number(map, lane.Mean) : "-",
                lane.Interval is { } interval ? $"{Number(map, interval.Lower)} to {Number(map, interval.Upper)}" : "-",
                lane.HasStandardDeviation ? Number(map, lane.StandardDeviation) : "-",
                lane.HasMean ? BarText.Of(most > least ? Math.Max(0.02, (lane.Mean - least) / (most - least)) : 0.5, BarWidth) : "",
                lane.Streak is { Streak: true } streak
                    ? $"[red]✗ streak[/] {Signed(Number(map, streak.Deviation))}, p {DecisionText.PValue(streak.AdjustedPValueFraction)}"
                    : "");
        }
        table.Write(screen);
    }

    private static string Trend(RollMap map, AlongTrend trend)
    {
        const double LengthM = 1000;
        var halfWidth = trend.SlopeInterval is { } interval ? LengthM * (interval.Upper - interval.Lower) / 2 : 0;
        var slope = DecisionText.Unit(Signed(NumberText.Supported(LengthM * trend.SlopePerM, halfWidth)), map.Unit);
        var bounds = trend.SlopeInterval is { } known
            ? $", interval {NumberText.Supported(LengthM * known.Lower, halfWidth)} to {NumberText.Supported(LengthM * known.Upper, halfWidth)}"
            : "";
        return Markup.Escape($"{slope} per 1000 m{bounds}: {(trend.Shown ? "a trend is shown" : "no trend is shown")}");
    }

    private static string Placed(RollMap map, PlacedValue placed) =>
        $"{Number(map, placed.Value, true)} at {NumberText.Fixed(placed.AcrossMm, 0)} mm, {NumberText.Fixed(placed.AlongM, 0)} m";

    private static string Root(RollMap map, double variance) => variance > 0 ? Number(map, Math.Sqrt(variance), true) : "none found";

    // The spread of the readings says how many digits tell places apart.
    private static string Number(RollMap map, double value, bool withUnit = false)
    {
        var text = NumberText.Supported(value, map.HasStandardDeviation ? map.StandardDeviation : 0, 1);
        return withUnit ? DecisionText.Unit(text, map.Unit) : text;
    }

    private static string Signed(string number) => number.StartsWith('-') ? number : $"+{number}";
}

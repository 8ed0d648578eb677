using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering.Decisions;

/// <summary>Capability and performance of a process against limits, or why there are no indices.</summary>
internal static class CapabilityScreen
{
    /// <summary>Writes it.</summary>
    public static void Write(Screen screen, Capability capability)
    {
        MethodPanel.WriteMarkupRows(screen, Rows(capability));
        if (capability.Refusal.Length > 0)
        {
            screen.Line();
            screen.Line($"[yellow]? no indices[/]: {Markup.Escape(capability.Refusal)}");
        }
        else
        {
            WriteIndices(screen, capability);
        }
        MethodPanel.WriteRows(screen, Beyond(capability));
        // The refusal has said it already.
        DecisionText.WriteSentences(screen, capability.Remarks.Where(remark =>
            capability.Refusal.Length == 0 || !remark.StartsWith(capability.Refusal, StringComparison.Ordinal)));
    }

    private static IEnumerable<(string Label, string Markup)> Rows(Capability capability)
    {
        var unit = capability.Unit;
        yield return ("Measurand", Markup.Escape(capability.Name));
        yield return ("Limits", Markup.Escape(DecisionText.Bounds(capability.Limits ?? new SeriesLimits(), unit)));
        yield return ("Readings", NumberText.Plain(capability.ReadingCount));
        if (capability.HasMean)
        {
            var spread = capability.HasOverallStandardDeviation ? capability.OverallStandardDeviation / Math.Sqrt(Math.Max(1, capability.ReadingCount)) : 0;
            yield return ("Mean", Markup.Escape(DecisionText.Unit(NumberText.Supported(capability.Mean, spread), unit)));
        }
        if (capability.HasOverallStandardDeviation)
        {
            var overall = DecisionText.Unit(NumberText.Supported(capability.OverallStandardDeviation, capability.OverallStandardDeviation, 1), unit);
            var within = capability.HasWithinStandardDeviation
                ? $"; within {DecisionText.Unit(NumberText.Supported(capability.WithinStandardDeviation, capability.WithinStandardDeviation, 1), unit)}"
                : "";
            yield return ("Standard deviation", Markup.Escape($"of all readings {overall}{within}"));
        }
        if (capability.Stability is { } stability)
        {
            yield return ("Stability", Stable(stability));
        }
        if (capability.Normality is { } normality)
        {
            yield return ("Normality", Markup.Escape(
                $"Anderson-Darling A² = {NumberText.Fixed(normality.Statistic, 3)}, p {P(normality.PValueFraction)}, {NumberText.Plain(normality.ReadingCount)} readings"));
        }
        if (capability.Model != CapabilityModel.Unspecified)
        {
            yield return ("Model", Markup.Escape(Model(capability)));
        }
    }

    private static IEnumerable<(string Label, string Text)> Beyond(Capability capability)
    {
        if (capability.ReadingCount == 0)
        {
            yield break;
        }
        var parts = new List<string> { $"found {Ppm(capability.ObservedPpm)}" };
        if (capability.HasExpectedPpm)
        {
            parts.Add($"expected {Ppm(capability.ExpectedPpm)} with the spread of all readings");
        }
        if (capability.HasExpectedWithinPpm)
        {
            parts.Add($"{Ppm(capability.ExpectedWithinPpm)} with the spread within");
        }
        yield return ("Beyond the limits", $"per million readings: {string.Join(", ", parts)}");
    }

    private static void WriteIndices(Screen screen, Capability capability)
    {
        var table = new DataTable().Words("Index").Numbers("Value", "Interval").Text("What it tells");
        foreach (var index in capability.Indices)
        {
            table.Row(
                Markup.Escape(index.Symbol),
                NumberText.Fixed(index.Value, 2),
                index.Interval is { } interval ? $"{NumberText.Fixed(interval.Lower, 2)} to {NumberText.Fixed(interval.Upper, 2)}" : "-",
                Meaning(index.Symbol));
        }
        table.Write(screen);
    }

    private static string Stable(Stability stability)
    {
        var counts = $"{NumberText.Plain(stability.BeyondLimitsCount)} beyond the control limits (up to {NumberText.Plain(stability.AllowedBeyondLimitsCount)} allowed), "
            + $"{VerdictText.Counted((int)stability.RunCount, "long run")} (up to {NumberText.Plain(stability.AllowedRunCount)})"
            + (stability.SpreadBeyondLimitsCount > 0 ? $", {VerdictText.Counted((int)stability.SpreadBeyondLimitsCount, "subgroup")} with a spread beyond its limits" : "");
        return $"{(stability.Stable ? "[green]✓ stable[/]" : "[red]✗ not stable[/]")}: {counts}";
    }

    private static string Model(Capability capability)
    {
        var name = capability.Model switch
        {
            CapabilityModel.Normal => "normal",
            CapabilityModel.BoxCox => $"normal after a Box-Cox transformation, λ = {NumberText.Fixed(capability.BoxCoxLambda, 2)}",
            _ => "none: percentiles of the readings themselves",
        };
        if (!capability.HasPercentileLow)
        {
            return name;
        }
        var spread = (capability.PercentileHigh - capability.PercentileLow) / 6;
        return $"{name}; 0.135 %, median and 99.865 % at {NumberText.Supported(capability.PercentileLow, spread, 1)}, "
            + $"{NumberText.Supported(capability.PercentileMedian, spread, 1)}, {DecisionText.Unit(NumberText.Supported(capability.PercentileHigh, spread, 1), capability.Unit)}";
    }

    private static string Meaning(string symbol) => symbol switch
    {
        "Cp" => "room between the limits, spread within subgroups",
        "Cpk" => "the nearer limit, spread within subgroups",
        "Pp" => "room between the limits, spread of all readings",
        "Ppk" => "the nearer limit, spread of all readings",
        "Cpm" => "deviation from the target counts too",
        _ => "",
    };

    private static string P(double fraction) => fraction < 0.0005 ? DecisionText.PValue(fraction) : $"= {DecisionText.PValue(fraction)}";

    private static string Ppm(double ppm) => ppm switch
    {
        0 => "0",
        < 0.05 => "< 0.1",
        _ => NumberText.Fixed(ppm, ppm < 10 ? 1 : 0),
    };
}

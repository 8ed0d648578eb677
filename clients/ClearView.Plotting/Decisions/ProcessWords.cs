using System.Collections.Immutable;
using System.Globalization;

using ClearView.Plotting.Charts;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>What a control chart says in words around its panels.</summary>
internal static class ProcessWords
{
    private const int MostPhases = 4;
    private const string Crowded = ", the outermost where they are crowded";

    public static string Kind(ControlChartKind kind) => kind switch
    {
        ControlChartKind.Individuals => "individuals",
        ControlChartKind.AveragesWithRange => "averages of subgroups, with range",
        ControlChartKind.AveragesWithStandardDeviation => "averages of subgroups, with standard deviation",
        ControlChartKind.Ewma => "exponentially weighted moving average",
        ControlChartKind.Cusum => "cumulative sums",
        _ => "kind not stated",
    };

    /// <summary>What the lower panel shows.</summary>
    public static string Spread(ControlChartKind kind) => kind switch
    {
        ControlChartKind.AveragesWithRange => "Range",
        ControlChartKind.AveragesWithStandardDeviation => "Standard dev.",
        _ => "Moving range",
    };

    /// <summary>What the upper panel shows.</summary>
    public static string Plotted(ControlChartSummary summary, ControlChartKind kind)
    {
        string name = kind switch
        {
            ControlChartKind.AveragesWithRange or ControlChartKind.AveragesWithStandardDeviation => $"Mean of {Lower(summary.Name)}",
            ControlChartKind.Ewma => $"Moving average of {Lower(summary.Name)}",
            ControlChartKind.Cusum => $"Cumulative sum of {Lower(summary.Name)}",
            _ => summary.Name,
        };
        return Wording.Quantity(name, summary.Unit);
    }

    /// <summary>A name within a sentence: its first letter small, unless what follows shows that it is a symbol.</summary>
    public static string Lower(string name) =>
        name.Length > 1 && char.IsUpper(name[0]) && char.IsLower(name[1]) ? char.ToLowerInvariant(name[0]) + name[1..] : name;

    public static ImmutableArray<string> Notes(ProcessTrace trace)
    {
        ControlChartSummary summary = trace.Summary;
        string unit = summary.LateReadingCount == 1 ? "reading" : "readings";
        return
        [
            .. summary.AutocorrelationCaution.Length > 0 ? [$"Caution: {summary.AutocorrelationCaution}"] : ImmutableArray<string>.Empty,
            .. summary.RevisedFrom is { } from
                ? [$"Revised: {summary.LateReadingCount} late {unit} took their place by time of measurement; drawn anew from {Wording.Time(from.ToDateTime())}."]
                : ImmutableArray<string>.Empty,
            .. trace.Thinned
                ? [$"Thinned: {summary.PointCount} points are drawn as a band from the smallest to the greatest of each stretch; {Shown(trace)}."]
                : ImmutableArray<string>.Empty,
        ];
    }

    public static ImmutableArray<string> Footer(ProcessTrace trace)
    {
        NamedControlChart named = trace.Named;
        string description = named.Description.Length > 0 ? $": {named.Description.TrimEnd('.')}" : "";
        string name = named.ControlChartName is { Name.Length: > 0 } known ? $"Chart {known.Name}, version {known.Version}{description}." : "Chart over given values; it is not stored.";
        string stored = named.StoredAt is { } at ? $" Stored by {named.StoredBy}, {Wording.Time(at.ToDateTime())}." : "";
        int hidden = trace.Chart.Phases.Count - MostPhases;
        return
        [
            name + stored,
            .. trace.Chart.Phases.Where(phase => phase.Limits is not null).Take(MostPhases).Select(phase => Frozen(phase, trace)),
            .. hidden > 0 ? [$"… and {hidden} further phases with frozen limits of their own."] : ImmutableArray<string>.Empty,
        ];
    }

    private static string Shown(ProcessTrace trace) => (ulong)trace.Points.Length < trace.Summary.SignalPointCount
        ? $"the first {trace.Points.Length} of {trace.Summary.SignalPointCount} points with signals are marked{Crowded}"
        : $"points with signals are marked{Crowded}";

    private static string Frozen(ControlPhase phase, ProcessTrace trace)
    {
        FrozenLimits limits = phase.Limits;
        string unit = Wording.Suffix(trace.Summary.Unit);
        string estimate = limits.Estimate.Length > 0 ? $" ({limits.Estimate})" : "";
        string size = limits.SubgroupCount > 1 ? $", subgroups of {limits.SubgroupCount}" : "";
        string remarks = string.Concat(limits.Remarks.Select(remark => $" {remark.TrimEnd('.')}."));
        return $"Frozen limits, {ShortNames.Of(phase.Name, 60)}: centre {Digits.Beside(limits.Centre, limits.StandardDeviation)}{unit}, "
            + $"s {Digits.Two(limits.StandardDeviation)}{unit}{estimate}{size}; {Baseline(limits)}.{remarks}";
    }

    private static string Baseline(FrozenLimits limits)
    {
        string count = limits.BaselineCount > 0 ? string.Create(CultureInfo.InvariantCulture, $" of {limits.BaselineCount} points") : "";
        string from = limits.Baseline?.MeasuredFrom is { } start ? $" from {Wording.Time(start.ToDateTime())}" : "";
        string to = limits.Baseline?.MeasuredBefore is { } end ? $" to {Wording.Time(end.ToDateTime())}" : "";
        return count.Length + from.Length + to.Length == 0 ? "known values, no baseline" : $"baseline{count}{from}{to}";
    }
}

using ClearView.Contract.Series;
using ClearView.Contract.Validation;
using ClearView.V1;

namespace ClearView.Contract.ControlCharts;

/// <summary>Rules for a control chart, and for requests to store or draw one.</summary>
public static class ControlChartRules
{
    private const uint LeastPoints = 100;
    private const uint MostPoints = 100_000;
    private const uint UsualPoints = 2000;

    /// <summary>Checks a chart that is to be stored.</summary>
    /// <param name="request">The request as it came.</param>
    /// <param name="violations">Takes every field at fault.</param>
    public static void Check(StoreControlChartRequest request, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(violations);
        DocumentRules.Check(request.Name, request.Description, request.StoredBy, violations);
        Check(request.ControlChart, "control_chart", stored: true, violations);
    }

    /// <summary>Checks which chart is to be drawn, and how.</summary>
    /// <param name="request">The request as it came.</param>
    /// <param name="violations">Takes every field at fault.</param>
    public static void Check(GetControlChartRequest request, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(violations);
        if (request.ControlChartName is { } name)
        {
            MethodNameRules.Check(name.Name, "control_chart_name.name", violations);
        }
        else
        {
            violations.Add("control_chart_name", $"was missing; expected the name of a chart.");
        }

        MeasuredSpanRules.Check(request.Span, "span", violations);
        CheckMostPoints(request.MostPointsCount, violations);
    }

    /// <summary>Most points that are sent one by one, as a request chose it.</summary>
    /// <param name="mostPointsCount">The number as it came, checked.</param>
    public static int MostPointsOf(uint mostPointsCount) => (int)(mostPointsCount == 0 ? UsualPoints : mostPointsCount);

    /// <summary>Checks a chart.</summary>
    /// <param name="chart">The chart as it came; <see langword="null"/> is a violation.</param>
    /// <param name="path">Path of the field, for violations.</param>
    /// <param name="stored">Whether it is to be drawn over stored readings, which have no label of their own.</param>
    /// <param name="violations">Takes every field at fault.</param>
    internal static void Check(V1.ControlChart? chart, string path, bool stored, Violations violations)
    {
        if (chart is null)
        {
            violations.Add(path, $"was missing; expected a chart.");
            return;
        }

        SeriesFilterRules.Check(chart.Series, $"{path}.series", violations);
        violations.RequireNamed($"{path}.kind", chart.Kind);
        SubgroupingRules.Check(chart, $"{path}.subgrouping", stored, violations);
        ChartSettingRules.Check(chart, path, violations);
        ControlPhaseRules.Check(chart, $"{path}.phases", violations);
    }

    internal static void CheckMostPoints(uint mostPointsCount, Violations violations)
    {
        if (mostPointsCount is not 0 and not (>= LeastPoints and <= MostPoints))
        {
            violations.Add("most_points_count", $"was {mostPointsCount}; expected {LeastPoints} to {MostPoints} points, or 0 for {UsualPoints}.");
        }
    }
}

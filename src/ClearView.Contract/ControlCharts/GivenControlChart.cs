using ClearView.Contract.Series;
using ClearView.Contract.Validation;
using ClearView.Quality.Series;
using ClearView.V1;

namespace ClearView.Contract.ControlCharts;

/// <summary>A chart over values that the caller brought along: for the server and for offline commands alike.</summary>
public static class GivenControlChart
{
    /// <summary>Checks a request, takes the limits of its baselines from its values, and draws the chart.</summary>
    /// <param name="request">The request as it came.</param>
    /// <param name="violations">Takes every field at fault.</param>
    /// <returns>The parts of the chart; <see langword="null"/> when something is at fault.</returns>
    public static IEnumerable<DrawnControlChart>? Draw(DrawControlChartRequest request, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(violations);
        var own = new Violations();
        V1.ControlChart? chart = request.ControlChart;
        ControlChartRules.Check(chart, "control_chart", stored: false, own);
        ControlChartRules.CheckMostPoints(request.MostPointsCount, own);
        MeasuredSeries? series = ReadValues(request, own);
        FrozenLimits?[] limits = own.IsEmpty && chart is not null && series is not null ? Freeze(chart, series.Columns, own) : [];
        violations.AddAll(own);
        return own.IsEmpty
            ? ControlChartDrawer.Draw(
                new NamedControlChart { ControlChart = BaselineFreezer.WithLimits(chart!, limits) },
                series!.Columns,
                span: null,
                ControlChartRules.MostPointsOf(request.MostPointsCount))
            : null;
    }

    private static MeasuredSeries? ReadValues(DrawControlChartRequest request, Violations violations)
    {
        if (request.Values is not { } values)
        {
            violations.Add("values", $"was missing; expected the values to draw the chart over.");
            return null;
        }

        if (request.ControlChart?.Series is { } filter && filter.Measurand != values.Measurand)
        {
            violations.Add("values.measurand", $"was \"{values.Measurand}\"; expected that of the chart, \"{filter.Measurand}\".");
        }

        bool byLabel = request.ControlChart?.Subgrouping?.ByCase == V1.Subgrouping.ByOneofCase.Label;
        if (byLabel && values.Label.Count == 0)
        {
            violations.Add("values.label", $"was missing; expected the label of each value, which the chart forms subgroups by.");
        }

        SeriesParts parts = request.ControlChart is { } chart ? ControlChartReader.PartsOf(chart) : SeriesParts.Times;
        return SeriesReader.Read(values, parts, "values", violations);
    }

    private static FrozenLimits?[] Freeze(V1.ControlChart chart, SeriesColumns series, Violations violations) =>
        [.. chart.Phases.Select((phase, i) => phase.LimitsChoiceCase == V1.ControlPhase.LimitsChoiceOneofCase.Baseline
            ? BaselineFreezer.Freeze(chart, i, SeriesRows.Between(series, TickSpan.Of(phase.Baseline)), "control_chart", violations)
            : null)];
}

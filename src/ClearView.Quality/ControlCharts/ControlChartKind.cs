namespace ClearView.Quality.ControlCharts;

/// <summary>Which chart a series is shown on.</summary>
public enum ControlChartKind
{
    /// <summary>Single readings, with the moving range of two.</summary>
    Individuals = 1,

    /// <summary>Averages of subgroups, with their range.</summary>
    AveragesWithRange = 2,

    /// <summary>Averages of subgroups, with their standard deviation.</summary>
    AveragesWithStandardDeviation = 3,

    /// <summary>Exponentially weighted moving average.</summary>
    Ewma = 4,

    /// <summary>Tabular cumulative sums above and below a target.</summary>
    Cusum = 5,
}

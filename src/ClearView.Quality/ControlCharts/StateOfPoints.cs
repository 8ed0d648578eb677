namespace ClearView.Quality.ControlCharts;

/// <summary>All that the next point of a chart depends on.</summary>
internal struct StateOfPoints
{
    /// <summary>Points so far.</summary>
    public long Count;

    /// <summary>The value before, for the moving range; NaN before the first.</summary>
    public double Before;

    /// <summary>The exponentially weighted moving average.</summary>
    public double Average;

    /// <summary>Its variance.</summary>
    public double Variance;

    /// <summary>CUSUM above the target.</summary>
    public double SumAbove;

    /// <summary>CUSUM below the target.</summary>
    public double SumBelow;

    /// <summary>The pattern tests.</summary>
    public RunRuleState Rules;
}

namespace ClearView.Quality.ControlCharts;

/// <summary>One point of a control chart, as it is drawn.</summary>
public readonly record struct ControlPoint
{
    /// <summary>Place in its phase, from 0.</summary>
    public long Index { get; init; }

    /// <summary>The reading, or the mean of the subgroup.</summary>
    public double Value { get; init; }

    /// <summary>What is plotted: the value itself, or the exponentially weighted moving average. For CUSUM see the sums.</summary>
    public double Plotted { get; init; }

    /// <summary>Limits of what is plotted.</summary>
    public ChartBand Limits { get; init; }

    /// <summary>Moving range, range or standard deviation; NaN where there is none.</summary>
    public double Spread { get; init; }

    /// <summary>CUSUM above the target, in the unit of the readings; 0 on other charts.</summary>
    public double SumAbove { get; init; }

    /// <summary>CUSUM below the target, in the unit of the readings, 0 or more; 0 on other charts.</summary>
    public double SumBelow { get; init; }

    /// <summary>The signals that the point raises.</summary>
    public ControlSignals Signals { get; init; }
}

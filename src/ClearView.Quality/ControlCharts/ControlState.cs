using ClearView.Quality.Descriptive;

namespace ClearView.Quality.ControlCharts;

/// <summary>A control chart that takes its points one at a time and says at once which signals each raises.</summary>
/// <remarks>
/// Constant time and memory per point. A whole series is this state, fed point by point, so that the live chart and the chart
/// drawn afterwards cannot differ. Not safe for use by several threads at once.
/// </remarks>
public sealed class ControlState
{
    private readonly RunRules _rules;
    private readonly double _weight;
    private readonly double _limitWidth;
    private readonly double _slack;
    private readonly double _interval;
    private readonly double _centre;
    private readonly ControlChartKind _kind;
    private int _bandSize;
    private ChartBand _band;
    private double _spreadLower;
    private double _spreadUpper;
    private double _sigmaOfPoint;
    private StateOfPoints _state;

    /// <summary>A chart without points.</summary>
    /// <param name="limits">Its frozen limits.</param>
    /// <param name="rules">The rules that raise signals.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length of the rules is outside its range.</exception>
    public ControlState(ControlLimits limits, RunRules rules)
    {
        ArgumentNullException.ThrowIfNull(limits);
        ArgumentNullException.ThrowIfNull(rules);
        rules.Check();
        Limits = limits;
        _rules = rules;
        _centre = limits.Centre;
        _kind = limits.Kind;
        _weight = limits.Ewma?.Weight ?? 1;
        _limitWidth = limits.Ewma?.LimitWidth ?? 3;
        _slack = limits.Cusum?.Slack ?? 0;
        _interval = limits.Cusum?.DecisionInterval ?? 0;
        _state.Average = limits.Centre;
        _state.Before = double.NaN;
    }

    /// <summary>The limits.</summary>
    public ControlLimits Limits { get; }

    /// <summary>Number of points so far.</summary>
    public long Count => _state.Count;

    // What a later point depends on; a copy is a checkpoint to return to.
    internal StateOfPoints Checkpoint
    {
        get => _state;
        set => _state = value;
    }

    /// <summary>Takes one reading.</summary>
    /// <param name="reading">The reading, finite.</param>
    /// <returns>The point, with the signals that it raises.</returns>
    /// <exception cref="ArgumentException">The reading is not finite.</exception>
    public ControlPoint Add(double reading) => Add(new Subgroup(1, reading, 0, 0));

    /// <summary>Takes one subgroup.</summary>
    /// <param name="subgroup">The subgroup.</param>
    /// <returns>The point, with the signals that it raises.</returns>
    /// <exception cref="ArgumentException">Its mean is not finite, or its size is below 1 or has no factors on this chart.</exception>
    public ControlPoint Add(in Subgroup subgroup)
    {
        Finite.Check(subgroup.Mean, nameof(subgroup));
        if (subgroup.Size != _bandSize)
        {
            Resize(subgroup.Size);
        }

        ControlPoint point = _kind switch
        {
            ControlChartKind.Ewma => Ewma(subgroup),
            ControlChartKind.Cusum => Cusum(subgroup),
            _ => Shewhart(subgroup),
        };
        _state.Count++;
        _state.Before = subgroup.Mean;
        return point;
    }

    private ControlPoint Shewhart(in Subgroup subgroup)
    {
        double spread = _kind switch
        {
            ControlChartKind.Individuals => Math.Abs(subgroup.Mean - _state.Before),
            _ when subgroup.Size < 2 => double.NaN,
            ControlChartKind.AveragesWithRange => subgroup.Range,
            _ => subgroup.StandardDeviation,
        };
        ControlSignals signals = _state.Rules.Add(subgroup.Mean, (subgroup.Mean - _centre) / _sigmaOfPoint, _rules);
        if (spread > _spreadUpper || spread < _spreadLower)
        {
            signals |= ControlSignals.SpreadBeyondLimits & _rules.Patterns;
        }

        return new ControlPoint
        {
            Index = _state.Count,
            Value = subgroup.Mean,
            Plotted = subgroup.Mean,
            Limits = _band,
            Spread = spread,
            Signals = signals,
        };
    }

    // NIST/SEMATECH e-Handbook 6.3.2.4; ISO 7870-6. The variance of the average is kept exactly, sizes may differ:
    // Var z = Σ λ²(1 − λ)²ⁱ σ²/n, which for equal sizes is σ²/n · λ/(2 − λ) · (1 − (1 − λ)²ᵗ).
    private ControlPoint Ewma(in Subgroup subgroup)
    {
        _state.Average += _weight * (subgroup.Mean - _state.Average);
        double rest = (1 - _weight) * (1 - _weight);
        _state.Variance = (rest * _state.Variance) + (_weight * _weight * _sigmaOfPoint * _sigmaOfPoint);
        double width = _limitWidth * Math.Sqrt(_state.Variance);
        ChartBand band = new(Limits.Centre - width, Limits.Centre, Limits.Centre + width);
        return new ControlPoint
        {
            Index = _state.Count,
            Value = subgroup.Mean,
            Plotted = _state.Average,
            Limits = band,
            Spread = double.NaN,
            Signals = _state.Average > band.Upper || _state.Average < band.Lower
                ? ControlSignals.EwmaBeyondLimits & _rules.Patterns
                : ControlSignals.None,
        };
    }

    // NIST/SEMATECH e-Handbook 6.3.2.3; ISO 7870-4, tabular form.
    private ControlPoint Cusum(in Subgroup subgroup)
    {
        double slack = _slack * _sigmaOfPoint;
        double limit = _interval * _sigmaOfPoint;
        double deviation = subgroup.Mean - _centre;
        _state.SumAbove = Math.Max(0, _state.SumAbove + deviation - slack);
        _state.SumBelow = Math.Max(0, _state.SumBelow - deviation - slack);
        ControlSignals signals =
            (_state.SumAbove > limit ? ControlSignals.SumAboveTarget : ControlSignals.None)
            | (_state.SumBelow > limit ? ControlSignals.SumBelowTarget : ControlSignals.None);
        return new ControlPoint
        {
            Index = _state.Count,
            Value = subgroup.Mean,
            Plotted = subgroup.Mean,
            Limits = new ChartBand(-limit, 0, limit),
            Spread = double.NaN,
            SumAbove = _state.SumAbove,
            SumBelow = _state.SumBelow,
            Signals = signals & _rules.Patterns,
        };
    }

    private void Resize(int size)
    {
        if (size < 1
            || (_kind == ControlChartKind.Individuals && size != 1)
            || (_kind == ControlChartKind.AveragesWithRange && size > ChartFactors.LargestRangeSize))
        {
            throw new ArgumentException(FormattableString.Invariant($"a subgroup of {size} readings does not go with this chart."), nameof(size));
        }

        _bandSize = size;
        _band = Limits.ForMean(size);
        ChartBand? spread = Limits.ForSpread(size);
        _spreadLower = spread?.Lower ?? double.NegativeInfinity;
        _spreadUpper = spread?.Upper ?? double.PositiveInfinity;
        _sigmaOfPoint = Limits.StandardDeviation / Math.Sqrt(size);
    }
}

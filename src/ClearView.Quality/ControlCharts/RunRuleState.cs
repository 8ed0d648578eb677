using System.Numerics;

namespace ClearView.Quality.ControlCharts;

/// <summary>The pattern tests on one point after the other: a few counters, whatever the length of the series.</summary>
/// <remarks>A value type, so that a copy of it is a checkpoint. Bits of the histories: the newest point is the lowest.</remarks>
internal struct RunRuleState
{
    private uint _aboveOne;
    private uint _belowOne;
    private uint _aboveTwo;
    private uint _belowTwo;
    private int _side;
    private int _sideRun;
    private int _direction;
    private int _trend;
    private int _alternation;
    private int _withinOne;
    private double _before;
    private bool _started;

    /// <summary>Takes one point.</summary>
    /// <param name="value">The plotted value, for trends.</param>
    /// <param name="z">Its distance from the centre line in standard deviations of the plotted points.</param>
    /// <param name="rules">The rules.</param>
    public ControlSignals Add(double value, double z, RunRules rules)
    {
        Count(value, z);
        ControlSignals raised = Math.Abs(z) > 3 ? ControlSignals.BeyondLimits : ControlSignals.None;
        if (_sideRun >= rules.RunLength)
        {
            raised |= ControlSignals.RunOnOneSide;
        }

        // A trend of n points is n − 1 steps.
        if (_trend >= rules.TrendLength - 1)
        {
            raised |= ControlSignals.Trend;
        }

        if (_alternation >= 13)
        {
            raised |= ControlSignals.Alternation;
        }

        if (Newest(_aboveTwo, 0b111, 2) || Newest(_belowTwo, 0b111, 2))
        {
            raised |= ControlSignals.TwoOfThreeNearLimit;
        }

        if (Newest(_aboveOne, 0b11111, 4) || Newest(_belowOne, 0b11111, 4))
        {
            raised |= ControlSignals.FourOfFiveOffCentre;
        }

        if (_withinOne >= 15)
        {
            raised |= ControlSignals.HuggingCentre;
        }

        if (((_aboveOne | _belowOne) & 0xFF) == 0xFF && (_aboveOne & 0xFF) != 0 && (_belowOne & 0xFF) != 0)
        {
            raised |= ControlSignals.AvoidingCentre;
        }

        return raised & rules.Patterns;
    }

    private static bool Newest(uint history, uint window, int least) => (history & 1) != 0 && BitOperations.PopCount(history & window) >= least;

    private void Count(double value, double z)
    {
        _aboveOne = (_aboveOne << 1) | (z > 1 ? 1u : 0);
        _belowOne = (_belowOne << 1) | (z < -1 ? 1u : 0);
        _aboveTwo = (_aboveTwo << 1) | (z > 2 ? 1u : 0);
        _belowTwo = (_belowTwo << 1) | (z < -2 ? 1u : 0);
        _withinOne = Math.Abs(z) <= 1 ? _withinOne + 1 : 0;
        int side = Math.Sign(z);
        _sideRun = side != 0 && side == _side ? _sideRun + 1 : Math.Abs(side);
        _side = side;
        if (_started)
        {
            int direction = Math.Sign(value - _before);
            _trend = direction != 0 && direction == _direction ? _trend + 1 : Math.Abs(direction);
            _alternation = direction != 0 && direction == -_direction ? _alternation + 1 : Math.Abs(direction);
            _direction = direction;
        }

        _before = value;
        _started = true;
    }
}

using ClearView.Quality.Descriptive;
using ClearView.Quality.Distributions;

using MathNet.Numerics;

namespace ClearView.Quality.Lots;

/// <summary>A studentised range with its critical value, found once for all comparisons that share it.</summary>
internal sealed class StudentisedRangeCritical
{
    private readonly StudentisedRange _distribution;
    private readonly double _degreesOfFreedom;
    private readonly double _critical;

    public StudentisedRangeCritical(int means, double degreesOfFreedom, double significance)
    {
        _degreesOfFreedom = degreesOfFreedom;
        _distribution = new StudentisedRange(means, degreesOfFreedom);
        _critical = _distribution.UpperQuantile(significance);
    }

    /// <summary>Tests a difference.</summary>
    /// <param name="difference">The difference.</param>
    /// <param name="error">Its standard deviation.</param>
    public RangeTest Test(double difference, double error)
    {
        double scale = error / Constants.Sqrt2;
        double q = Math.Abs(difference) / scale;
        return new RangeTest(q, _degreesOfFreedom, _distribution.UpperTail(q), Interval.Around(difference, scale * _critical));
    }
}

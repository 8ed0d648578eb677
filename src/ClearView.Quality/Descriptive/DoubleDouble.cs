namespace ClearView.Quality.Descriptive;

/// <summary>A number carried as the sum of two doubles, some 31 digits: sums over values that share leading digits keep theirs.</summary>
/// <remarks>Error-free transformations of Knuth and Dekker.</remarks>
/// <param name="High">The number, rounded to double.</param>
/// <param name="Low">What the rounding left.</param>
internal readonly record struct DoubleDouble(double High, double Low)
{
    public static DoubleDouble Zero => default;

    public double ToDouble() => High + Low;

    public DoubleDouble Add(double value)
    {
        (double sum, double error) = TwoSum(High, value);
        return Renormalise(sum, error + Low);
    }

    public DoubleDouble Add(DoubleDouble other)
    {
        (double sum, double error) = TwoSum(High, other.High);
        return Renormalise(sum, error + Low + other.Low);
    }

    public DoubleDouble Subtract(DoubleDouble other) => Add(new DoubleDouble(-other.High, -other.Low));

    public DoubleDouble Multiply(DoubleDouble other)
    {
        double product = High * other.High;
        double error = Math.FusedMultiplyAdd(High, other.High, -product);
        return Renormalise(product, error + (High * other.Low) + (Low * other.High));
    }

    public DoubleDouble DivideBy(double divisor)
    {
        double quotient = High / divisor;
        double remainder = Math.FusedMultiplyAdd(-quotient, divisor, High) + Low;
        return Renormalise(quotient, remainder / divisor);
    }

    /// <summary>The mean of values, exact but for the last division.</summary>
    public static DoubleDouble Mean(IReadOnlyCollection<double> values)
    {
        DoubleDouble sum = Zero;
        foreach (double value in values)
        {
            sum = sum.Add(value);
        }

        return sum.DivideBy(values.Count);
    }

    /// <summary>The sum of squared deviations from a centre.</summary>
    public static DoubleDouble SquaresAround(IReadOnlyCollection<double> values, DoubleDouble centre)
    {
        DoubleDouble sum = Zero;
        foreach (double value in values)
        {
            DoubleDouble deviation = new DoubleDouble(value, 0).Subtract(centre);
            sum = sum.Add(deviation.Multiply(deviation));
        }

        return sum;
    }

    private static (double Sum, double Error) TwoSum(double a, double b)
    {
        double sum = a + b;
        double rest = sum - a;
        return (sum, (a - (sum - rest)) + (b - rest));
    }

    private static DoubleDouble Renormalise(double high, double low)
    {
        double sum = high + low;
        return new DoubleDouble(sum, low - (sum - high));
    }
}

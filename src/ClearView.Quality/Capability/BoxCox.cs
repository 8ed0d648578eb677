namespace ClearView.Quality.Capability;

/// <summary>The Box-Cox transformation (xλ − 1)/λ, or ln x for λ = 0 (Box and Cox 1964).</summary>
/// <param name="Lambda">λ.</param>
public sealed record BoxCox(double Lambda)
{
    /// <summary>Smallest and largest λ that is looked for, by sign.</summary>
    public const double LargestLambda = 5;

    // Below it the power loses digits against its limit, the logarithm.
    private const double AsLogarithm = 1e-6;

    /// <summary>λ of greatest likelihood, from −5 to 5.</summary>
    /// <param name="readings">The readings, all above 0, not all equal, 3 or more.</param>
    /// <exception cref="ArgumentException">A reading is not above 0, there are fewer than 3, or none differs.</exception>
    public static BoxCox Fit(ReadOnlySpan<double> readings)
    {
        double[] logarithms = new double[readings.Length];
        double sum = 0;
        for (int i = 0; i < readings.Length; i++)
        {
            if (!(readings[i] is > 0 and < double.PositiveInfinity))
            {
                throw new ArgumentException(FormattableString.Invariant($"a reading was {readings[i]}; expected above 0."), nameof(readings));
            }

            logarithms[i] = Math.Log(readings[i]);
            sum += logarithms[i];
        }

        if (readings.Length < 3 || logarithms.AsSpan().IndexOfAnyExcept(logarithms[0]) < 0)
        {
            throw new ArgumentException("expected 3 readings or more that differ.", nameof(readings));
        }

        // About the geometric mean, so that the likelihood does not depend on the unit of the readings.
        double mean = sum / logarithms.Length;
        for (int i = 0; i < logarithms.Length; i++)
        {
            logarithms[i] -= mean;
        }

        return new BoxCox(Maximum(lambda => LogLikelihood(logarithms, lambda)));
    }

    /// <summary>Transforms a value above 0.</summary>
    /// <param name="value">The value.</param>
    public double Transform(double value) =>
        Math.Abs(Lambda) < AsLogarithm ? Math.Log(value) : (Math.Pow(value, Lambda) - 1) / Lambda;

    /// <summary>Transforms back.</summary>
    /// <param name="transformed">The transformed value.</param>
    /// <returns>NaN where no value above 0 is transformed to it.</returns>
    public double Invert(double transformed) =>
        Math.Abs(Lambda) < AsLogarithm ? Math.Exp(transformed) : Math.Pow(1 + (Lambda * transformed), 1 / Lambda);

    // −n/2 ln σ²(λ) + (λ − 1) Σ ln x, whose second term is 0 about the geometric mean.
    private static double LogLikelihood(double[] logarithms, double lambda)
    {
        double[] transformed = new double[logarithms.Length];
        for (int i = 0; i < logarithms.Length; i++)
        {
            double power = lambda * logarithms[i];
            transformed[i] = Math.Abs(lambda) < AsLogarithm ? logarithms[i] : ExpM1(power) / lambda;
        }

        return -logarithms.Length * Math.Log(Moments.Of(transformed).StandardDeviation);
    }

    private static double ExpM1(double x) => Math.Abs(x) < 1e-5 ? x + (x * x / 2) + (x * x * x / 6) : Math.Exp(x) - 1;

    // Golden section within the best of a coarse search: the likelihood has one maximum in practice, the search does not rely on it.
    private static double Maximum(Func<double, double> likelihood)
    {
        const double CoarseStep = 0.25;
        double best = -LargestLambda;
        double greatest = double.NegativeInfinity;
        for (double lambda = -LargestLambda; lambda <= LargestLambda; lambda += CoarseStep)
        {
            double here = likelihood(lambda);
            if (here > greatest)
            {
                (best, greatest) = (lambda, here);
            }
        }

        double ratio = (Math.Sqrt(5) - 1) / 2;
        double low = Math.Max(best - CoarseStep, -LargestLambda);
        double high = Math.Min(best + CoarseStep, LargestLambda);
        double left = high - (ratio * (high - low));
        double right = low + (ratio * (high - low));
        double atLeft = likelihood(left);
        double atRight = likelihood(right);
        while (high - low > 1e-7)
        {
            if (atLeft > atRight)
            {
                (high, right, atRight) = (right, left, atLeft);
                left = high - (ratio * (high - low));
                atLeft = likelihood(left);
            }
            else
            {
                (low, left, atLeft) = (left, right, atRight);
                right = low + (ratio * (high - low));
                atRight = likelihood(right);
            }
        }

        return (low + high) / 2;
    }
}

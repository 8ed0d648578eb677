namespace ClearView.Quality.Distributions;

/// <summary>The studentised range: the range of k independent normal deviates over an independent root mean square with ν degrees of freedom.</summary>
/// <remarks>
/// <para>
/// P(Q ≤ q) = ∫ W(q·s) f(s) ds with W(w) = k ∫ φ(z) [Φ(z) − Φ(z − w)]ᵏ⁻¹ dz, the distribution of the range of k standard
/// normal deviates (Tukey 1953; Copenhaver and Holland 1988). The upper tail is integrated as such, not as a difference
/// from 1, so that small p-values keep their digits.
/// </para>
/// <para>Immutable. Tukey-Kramer and Games-Howell comparisons rest on it.</para>
/// </remarks>
public sealed class StudentisedRange
{
    // The trapezoidal rule on a Gaussian converges like exp(-2π²σ²/h²): this step leaves nothing in double precision.
    private const double Step = 0.2;
    private const double Reach = 9;

    // Logarithm of a density that no tail above 1e-30 notices.
    private const double Negligible = -95;

    // Nodes of the trapezoidal rule: place, density, probability below. Ranges up to 80 reach half as far, and as far again.
    private static readonly (double Z, double Density, double Below)[] Nodes =
    [
        .. Enumerable.Range((int)(-Reach / Step), (int)((Reach + 40 + Reach) / Step) + 2)
            .Select(i => (i * Step, NormalTail.Density(i * Step), NormalTail.Lower(i * Step))),
    ];

    private readonly ChiOverRootDf? _spread;

    // Density times the probability of k - 1 deviates below each node.
    private readonly double[] _below;

    /// <summary>Takes the two parameters.</summary>
    /// <param name="means">k, how many means are ranged over, 2 to 1000.</param>
    /// <param name="degreesOfFreedom">ν, at least 1, not necessarily whole; positive infinity for a known standard deviation.</param>
    /// <exception cref="ArgumentOutOfRangeException">A parameter is outside its range.</exception>
    public StudentisedRange(int means, double degreesOfFreedom)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(means, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(means, 1000);
        Means = means;
        _below = [.. Nodes.Select(node => node.Density * Math.Pow(node.Below, means - 1))];
        DegreesOfFreedom = Probability.DegreesOfFreedom(degreesOfFreedom);
        _spread = double.IsInfinity(degreesOfFreedom) ? null : new ChiOverRootDf(degreesOfFreedom);
    }

    /// <summary>k.</summary>
    public int Means { get; }

    /// <summary>ν.</summary>
    public double DegreesOfFreedom { get; }

    /// <summary>Probability of a studentised range up to <paramref name="q"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="q"/> is not a number.</exception>
    public double LowerTail(double q) => Tail(q, lower: true);

    /// <summary>Probability of a studentised range above <paramref name="q"/>, the p-value of a comparison.</summary>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="q"/> is not a number.</exception>
    public double UpperTail(double q) => Tail(q, lower: false);

    /// <summary>The studentised range that is exceeded with a given probability, as tables print it.</summary>
    /// <param name="probability">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="probability"/> is outside its range.</exception>
    public double UpperQuantile(double probability) => Invert(Probability.Inside(probability), lower: false);

    /// <summary>The studentised range that is not exceeded with a given probability.</summary>
    /// <param name="probability">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="probability"/> is outside its range.</exception>
    public double Quantile(double probability) => Invert(Probability.Inside(probability), lower: true);

    private double Tail(double q, bool lower)
    {
        if (double.IsNaN(q))
        {
            throw new ArgumentOutOfRangeException(nameof(q), q, "q was not a number.");
        }

        if (q <= 0 || double.IsPositiveInfinity(q))
        {
            return q <= 0 == lower ? 0 : 1;
        }

        if (_spread is null)
        {
            return OfRange(q, lower);
        }

        double Integrand(double s)
        {
            double logDensity = s <= 0 ? double.NegativeInfinity : _spread.LogDensity(s);
            return logDensity < Negligible ? 0 : Math.Exp(logDensity) * OfRange(q * s, lower);
        }

        // The two scales of the integrand: the spread of s around 1, and s of the size 1/q, where the range turns likely. A low
        // power of s, not necessarily whole, is not smooth at zero.
        IEnumerable<double> borders = PanelQuadrature.Around(1, 2 * _spread.Width, 5)
            .Concat([0.5 / q, 1 / q, 2 / q, 3 / q, 4 / q, 6 / q, 8 / q, 16 / q, 32 / q])
            .Concat(DegreesOfFreedom < 8 ? PanelQuadrature.TowardsZero(Math.Min(0.5, 0.5 / q)) : []);
        return Math.Clamp(PanelQuadrature.Integrate(Integrand, 0, 1 + (14 * _spread.Width), borders), 0, 1);
    }

    // W(w) or 1 - W(w), each a sum of positive terms.
    private double OfRange(double w, bool lower)
    {
        // A range of 80 standard deviations has no probability that a double could hold.
        if (w > 80)
        {
            return lower ? 1 : 0;
        }

        double end = (lower ? Math.Min(w, Reach) : w / 2) + Reach;
        double sum = 0;
        for (int i = 0; i < Nodes.Length && Nodes[i].Z <= end + Step; i++)
        {
            (double z, double density, double below) = Nodes[i];
            double outside = NormalTail.Lower(z - w);
            sum += lower
                ? density * Math.Pow(Between(z, w, below, outside), Means - 1)
                : -_below[i] * NearOne.ExpM1((Means - 1) * NearOne.Log1P(Math.Max(-1, -outside / below)));
        }

        return Math.Min(1, Means * Step * sum);
    }

    private static double Between(double z, double w, double below, double outside) =>
        z <= w / 2 ? below - outside : NormalTail.Lower(w - z) - NormalTail.Lower(-z);

    private double Invert(double probability, bool lower)
    {
        if (probability > 0.5)
        {
            (probability, lower) = (1 - probability, !lower);
        }

        double target = Math.Log(probability);
        double Distance(double logQ) => Math.Log(Math.Max(Tail(Math.Exp(logQ), lower), double.Epsilon)) - target;
        return Math.Exp(MonotoneRoot.Find(Distance, Math.Log(3), 0.25));
    }
}

namespace ClearView.Quality.Distributions;

/// <summary>The non-central t distribution: a normal deviate with mean δ over an independent root mean square with ν degrees of freedom.</summary>
/// <remarks>
/// <para>
/// P(T ≤ t) = ∫ Φ(t·s − δ) f(s) ds, with f the density of the sample standard deviation as a multiple of the true one
/// (Owen 1968). Both tails are integrals of positive terms, so each keeps its digits where it is small: relative error below
/// 10⁻⁹ for tails above 10⁻²⁰⁰, at any δ up to 10⁴ in size.
/// </para>
/// <para>Immutable. Acceptance plans, one-sided tolerance limits, power and effect-size intervals rest on it.</para>
/// </remarks>
public sealed class NoncentralT
{
    private readonly ChiOverRootDf? _spread;

    /// <summary>Takes the two parameters.</summary>
    /// <param name="degreesOfFreedom">ν, at least 1, not necessarily whole; positive infinity gives the normal distribution around δ.</param>
    /// <param name="noncentrality">δ, at most 10⁴ in size.</param>
    /// <exception cref="ArgumentOutOfRangeException">A parameter is outside its range or not a number.</exception>
    public NoncentralT(double degreesOfFreedom, double noncentrality)
    {
        DegreesOfFreedom = Probability.DegreesOfFreedom(degreesOfFreedom);
        if (!(Math.Abs(noncentrality) <= 1e4))
        {
            throw new ArgumentOutOfRangeException(nameof(noncentrality), noncentrality, $"noncentrality was {noncentrality}; expected at most 10000 in size.");
        }

        Noncentrality = noncentrality;
        _spread = double.IsInfinity(degreesOfFreedom) ? null : new ChiOverRootDf(degreesOfFreedom);
    }

    /// <summary>ν.</summary>
    public double DegreesOfFreedom { get; }

    /// <summary>δ.</summary>
    public double Noncentrality { get; }

    /// <summary>Probability of a value up to <paramref name="t"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="t"/> is not a number.</exception>
    public double LowerTail(double t) => Tail(t, lower: true);

    /// <summary>Probability of a value above <paramref name="t"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="t"/> is not a number.</exception>
    public double UpperTail(double t) => Tail(t, lower: false);

    /// <summary>The value that the distribution stays below with a given probability.</summary>
    /// <param name="probability">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="probability"/> is outside its range.</exception>
    public double Quantile(double probability) => Invert(Probability.Inside(probability), lower: true);

    /// <summary>The value that the distribution exceeds with a given probability.</summary>
    /// <param name="probability">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="probability"/> is outside its range.</exception>
    public double UpperQuantile(double probability) => Invert(Probability.Inside(probability), lower: false);

    private double Tail(double t, bool lower)
    {
        if (double.IsNaN(t))
        {
            throw new ArgumentOutOfRangeException(nameof(t), t, "t was not a number.");
        }

        if (double.IsInfinity(t))
        {
            return t < 0 == lower ? 0 : 1;
        }

        if (_spread is null)
        {
            return NormalTail.Lower(lower ? t - Noncentrality : Noncentrality - t);
        }

        double sign = lower ? 1 : -1;
        double Integrand(double s) =>
            s <= 0 ? 0 : NormalTail.Lower(sign * ((t * s) - Noncentrality)) * Math.Exp(_spread.LogDensity(s));

        // The two scales of the integrand: the spread of s around 1, and the step of the normal distribution at δ/t.
        double reach = 1 + (40 * _spread.Width);
        IEnumerable<double> borders = PanelQuadrature.Around(1, 2 * _spread.Width, 6)
            .Concat(DegreesOfFreedom < 8 ? PanelQuadrature.TowardsZero(0.5) : []);
        if (t != 0)
        {
            borders = borders.Concat(PanelQuadrature.Around(Noncentrality / t, 2 / Math.Abs(t), 6));
        }

        return Math.Clamp(PanelQuadrature.Integrate(Integrand, 0, reach, borders), 0, 1);
    }

    private double Invert(double probability, bool lower)
    {
        // The tail that is asked is the lesser one: the logarithm of a number next to 1 has no digits.
        if (probability > 0.5)
        {
            (probability, lower) = (1 - probability, !lower);
        }

        double target = Math.Log(probability);
        double Distance(double t) => Math.Log(Math.Max(Tail(t, lower), double.Epsilon)) - target;
        double spread = Math.Sqrt(1 + (_spread is null ? 0 : Noncentrality * Noncentrality / (2 * DegreesOfFreedom)));
        return MonotoneRoot.Find(Distance, Noncentrality, lower ? -spread : spread);
    }
}

namespace ClearView.Optics.Uncertainty;

/// <summary>Coverage factors for one probability, kept once computed: quantiles of the t distribution are dear. Thread-safe.</summary>
internal sealed class CoverageFactors
{
    // Beyond this k differs from that of infinite degrees of freedom by less than 0.2 % and is computed anew.
    private const int MostKept = 1024;

    private readonly double _infinite;
    private double[]? _kept;

    public CoverageFactors(double probability)
    {
        Probability = probability;
        _infinite = Coverage.Factor(probability, double.PositiveInfinity);
    }

    public double Probability { get; }

    public double For(double degreesOfFreedom)
    {
        if (double.IsPositiveInfinity(degreesOfFreedom))
        {
            return _infinite;
        }

        double truncated = Coverage.Truncated(degreesOfFreedom);
        if (!(truncated is >= 1 and < MostKept))
        {
            return Coverage.Factor(Probability, degreesOfFreedom);
        }

        // Two threads may compute the same factor; both write the same number.
        double[] kept = _kept ??= new double[MostKept];
        int whole = (int)truncated;
        return kept[whole] > 0 ? kept[whole] : kept[whole] = Coverage.Factor(Probability, whole);
    }
}

using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;

namespace ClearView.Optics.Uncertainty;

/// <summary>Seeded draws from the distributions of JCGM 101, clause 6.4. Not thread-safe: one per run.</summary>
public sealed class TrialRandom
{
    private readonly Xoshiro256StarStar _source;
    private double _spare = double.NaN;

    /// <summary>Takes the seed; the same seed gives the same draws.</summary>
    /// <param name="seed">The seed.</param>
    public TrialRandom(int seed) => _source = new Xoshiro256StarStar(seed, false);

    /// <summary>Uniform in [0, 1).</summary>
    public double Uniform() => _source.NextDouble();

    /// <summary>Standard normal (Marsaglia's polar method).</summary>
    public double Normal()
    {
        if (!double.IsNaN(_spare))
        {
            double kept = _spare;
            _spare = double.NaN;
            return kept;
        }

        while (true)
        {
            double u = (2 * _source.NextDouble()) - 1;
            double v = (2 * _source.NextDouble()) - 1;
            double s = (u * u) + (v * v);
            if (s is > 0 and < 1)
            {
                double factor = Math.Sqrt(-2 * Math.Log(s) / s);
                _spare = v * factor;
                return u * factor;
            }
        }
    }

    /// <summary>Rectangular with mean 0 and standard deviation 1.</summary>
    public double Rectangular() => Math.Sqrt(3) * ((2 * _source.NextDouble()) - 1);

    /// <summary>√(ν/χ²): turns a normal draw into one of the t distribution with ν degrees of freedom (JCGM 101, 6.4.9); 1 where ν is infinite.</summary>
    /// <param name="degreesOfFreedom">ν, 1 or more.</param>
    public double StudentScale(double degreesOfFreedom) => double.IsPositiveInfinity(degreesOfFreedom)
        ? 1
        : Math.Sqrt(degreesOfFreedom / ChiSquared.Sample(_source, degreesOfFreedom));
}

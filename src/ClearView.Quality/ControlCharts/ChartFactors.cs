using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Integration;

namespace ClearView.Quality.ControlCharts;

/// <summary>Factors of control charts for one subgroup size, for normal readings (ISO 7870-2).</summary>
/// <remarks>
/// Computed, not tabulated: the range of n standard normal values W has P(W ≤ w) = n ∫ φ(x) (Φ(x + w) − Φ(x))ⁿ⁻¹ dx, from
/// which d₂ = E[W] and d₃² = E[W²] − d₂²; c₄ = √(2/(n − 1)) Γ(n/2)/Γ((n − 1)/2).
/// </remarks>
public sealed class ChartFactors
{
    /// <summary>Largest subgroup size with factors of the range.</summary>
    public const int LargestRangeSize = 25;

    // φ is below 1e-18 beyond 9; the trapezoidal rule converges faster than any power of the step on such an integrand.
    private const double Reach = 9;
    private const double Step = 0.1;

    private static readonly Lazy<ChartFactors[]> Table = new(Compute);

    private ChartFactors(int size, double meanRange, double rangeDeviation)
    {
        SubgroupSize = size;
        MeanOfRange = meanRange;
        DeviationOfRange = rangeDeviation;
        MeanOfDeviation = C4(size);
    }

    /// <summary>Readings per subgroup, 2-25.</summary>
    public int SubgroupSize { get; }

    /// <summary>d₂: mean of the range, in standard deviations.</summary>
    public double MeanOfRange { get; }

    /// <summary>d₃: standard deviation of the range, in standard deviations.</summary>
    public double DeviationOfRange { get; }

    /// <summary>c₄: mean of the sample standard deviation, in standard deviations.</summary>
    public double MeanOfDeviation { get; }

    /// <summary>A = 3/√n.</summary>
    public double A => 3 / Math.Sqrt(SubgroupSize);

    /// <summary>A₂ = 3/(d₂√n).</summary>
    public double A2 => A / MeanOfRange;

    /// <summary>A₃ = 3/(c₄√n).</summary>
    public double A3 => A / MeanOfDeviation;

    /// <summary>D₃ = max(0, 1 − 3 d₃/d₂): lower limit of the range over its mean.</summary>
    public double RangeLowerFactor => Math.Max(0, 1 - (3 * DeviationOfRange / MeanOfRange));

    /// <summary>D₄ = 1 + 3 d₃/d₂: upper limit of the range over its mean.</summary>
    public double RangeUpperFactor => 1 + (3 * DeviationOfRange / MeanOfRange);

    /// <summary>B₃ = max(0, 1 − 3 √(1 − c₄²)/c₄): lower limit of the standard deviation over its mean.</summary>
    public double DeviationLowerFactor => Math.Max(0, 1 - (3 * RelativeDeviation(MeanOfDeviation)));

    /// <summary>B₄ = 1 + 3 √(1 − c₄²)/c₄: upper limit of the standard deviation over its mean.</summary>
    public double DeviationUpperFactor => 1 + (3 * RelativeDeviation(MeanOfDeviation));

    /// <summary>The factors for a subgroup size.</summary>
    /// <param name="subgroupSize">Readings per subgroup, 2-25.</param>
    /// <exception cref="ArgumentOutOfRangeException">The size is outside its range.</exception>
    public static ChartFactors Of(int subgroupSize)
    {
        if (subgroupSize is < 2 or > LargestRangeSize)
        {
            throw new ArgumentOutOfRangeException(nameof(subgroupSize), subgroupSize, "expected a subgroup of 2 to 25 readings.");
        }

        return Table.Value[subgroupSize];
    }

    /// <summary>c₄ for any sample size.</summary>
    /// <param name="size">Sample size, 2 or more.</param>
    public static double C4(int size)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(size, 2);
        return Math.Sqrt(2.0 / (size - 1)) * Math.Exp(SpecialFunctions.GammaLn(size / 2.0) - SpecialFunctions.GammaLn((size - 1) / 2.0));
    }

    private static double RelativeDeviation(double c4) => Math.Sqrt(1 - (c4 * c4)) / c4;

    private static ChartFactors[] Compute()
    {
        int points = (int)Math.Round(2 * Reach / Step) + 1;
        double[] density = new double[points];
        double[] below = new double[points];
        for (int i = 0; i < points; i++)
        {
            double x = -Reach + (i * Step);
            density[i] = Normal.PDF(0, 1, x);
            below[i] = Normal.CDF(0, 1, x);
        }

        // The range of 25 values exceeds 14 with a probability below 1e-20.
        GaussLegendreRule rule = new(0, 14, 64);
        double[] first = new double[LargestRangeSize + 1];
        double[] second = new double[LargestRangeSize + 1];
        double[] inside = new double[LargestRangeSize + 1];
        for (int k = 0; k < rule.Order; k++)
        {
            double width = rule.GetAbscissa(k);
            Array.Clear(inside);
            for (int i = 0; i < points; i++)
            {
                double share = Normal.CDF(0, 1, -Reach + (i * Step) + width) - below[i];
                double power = 1;
                for (int n = 2; n <= LargestRangeSize; n++)
                {
                    power *= share;
                    inside[n] += density[i] * power;
                }
            }

            for (int n = 2; n <= LargestRangeSize; n++)
            {
                double beyond = 1 - (n * Step * inside[n]);
                first[n] += rule.GetWeight(k) * beyond;
                second[n] += rule.GetWeight(k) * 2 * width * beyond;
            }
        }

        ChartFactors[] table = new ChartFactors[LargestRangeSize + 1];
        for (int n = 2; n <= LargestRangeSize; n++)
        {
            table[n] = new ChartFactors(n, first[n], Math.Sqrt(second[n] - (first[n] * first[n])));
        }

        return table;
    }
}

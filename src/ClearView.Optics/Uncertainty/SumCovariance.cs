namespace ClearView.Optics.Uncertainty;

/// <summary>Covariance of the weighted sums under one source, 8 × 8 by rows.</summary>
internal static class SumCovariance
{
    private const int N = LinearFunctionals.Count;

    /// <summary>The covariance: Wᵀ·diag(u²)·W per wavelength, Σ (Wᵀd)(Wᵀd)ᵀ for whole spectra.</summary>
    public static double[] Of(UncertaintySource source, LinearFunctionals functionals) =>
        source.Correlation == SourceCorrelation.WholeSpectrum ? OfWholeSpectrum(source, functionals) : PerWavelength(source, functionals);

    /// <summary>Lower triangular factor L with L·Lᵀ the covariance, which may be singular (sums can share weights).</summary>
    public static double[] Factor(double[] covariance)
    {
        var lower = new double[N * N];
        for (int k = 0; k < N; k++)
        {
            double pivot = covariance[(k * N) + k];
            for (int m = 0; m < k; m++)
            {
                pivot -= lower[(k * N) + m] * lower[(k * N) + m];
            }

            // What is left of a sum that others determine is rounding: its column stays zero.
            if (pivot <= 1e-12 * covariance[(k * N) + k])
            {
                continue;
            }

            double root = Math.Sqrt(pivot);
            lower[(k * N) + k] = root;
            for (int j = k + 1; j < N; j++)
            {
                double value = covariance[(j * N) + k];
                for (int m = 0; m < k; m++)
                {
                    value -= lower[(j * N) + m] * lower[(k * N) + m];
                }

                lower[(j * N) + k] = value / root;
            }
        }

        return lower;
    }

    private static double[] OfWholeSpectrum(UncertaintySource source, LinearFunctionals functionals)
    {
        var covariance = new double[N * N];
        Span<double> moved = stackalloc double[N];
        for (int component = 0; component < source.ComponentCount; component++)
        {
            functionals.Project(source.TotalDeviation(component), source.DiffuseDeviation(component), moved);
            for (int j = 0; j < N; j++)
            {
                for (int k = 0; k < N; k++)
                {
                    covariance[(j * N) + k] += moved[j] * moved[k];
                }
            }
        }

        return covariance;
    }

    private static double[] PerWavelength(UncertaintySource source, LinearFunctionals functionals)
    {
        var covariance = new double[N * N];
        ReadOnlySpan<double> total = source.TotalDeviation(0);
        ReadOnlySpan<double> diffuse = source.DiffuseDeviation(0);
        var weighted = new double[total.Length];
        for (int j = 0; j < N; j++)
        {
            ReadOnlySpan<double> weights = functionals.Weights(j, out bool onDiffuse);
            ReadOnlySpan<double> deviation = onDiffuse ? diffuse : total;
            if (deviation.IsEmpty)
            {
                continue;
            }

            VectorMath.Multiply(weights, deviation, weighted);
            VectorMath.Multiply(weighted, deviation, weighted);
            for (int k = 0; k <= j; k++)
            {
                ReadOnlySpan<double> others = functionals.Weights(k, out bool otherOnDiffuse);
                if (onDiffuse == otherOnDiffuse)
                {
                    covariance[(j * N) + k] = covariance[(k * N) + j] = VectorMath.Dot(weighted, others);
                }
            }
        }

        return covariance;
    }
}

using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission;
using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Tests.Uncertainty;

/// <summary>The law of propagation written out with the full covariance matrix of both spectra: u² = gᵀ·C·g, sum by sum, nothing saved.</summary>
internal static class PlainPropagation
{
    public static double StandardUncertainty(ReadingEvaluator evaluator, TransmittanceScans scans, IEnumerable<UncertaintySource> sources, Measurand measurand)
    {
        double[] gradient = Gradient(evaluator, scans, measurand);
        double variance = 0;
        foreach (UncertaintySource source in sources)
        {
            double[] each = new double[gradient.Length];
            for (int component = 0; component < source.ComponentCount; component++)
            {
                double[] deviation = [.. source.TotalDeviation(component), .. source.DiffuseDeviation(component)];
                for (int i = 0; i < deviation.Length; i++)
                {
                    for (int k = 0; k < deviation.Length; k++)
                    {
                        bool correlated = i == k || source.Correlation == SourceCorrelation.WholeSpectrum;
                        each[i] += correlated ? deviation[i] * deviation[k] * gradient[k] : 0;
                    }
                }
            }

            variance += gradient.Zip(each, (g, e) => g * e).Sum();
        }

        return Math.Sqrt(variance);
    }

    private static double[] Gradient(ReadingEvaluator evaluator, TransmittanceScans scans, Measurand measurand)
    {
        int n = scans.Grid.Count;
        var gradient = new double[scans.Diffuse is null ? n : 2 * n];
        if (measurand.Differentiable is null)
        {
            SpectralGradient own = measurand.Spectral!(scans, evaluator.Method)!;
            own.Total.CopyTo(gradient, own.First);
            own.Diffuse.CopyTo(gradient, own.Diffuse.Length == 0 ? 0 : n + own.First);
            return gradient;
        }

        var functionals = new LinearFunctionals(evaluator);
        var sums = new double[LinearFunctionals.Count];
        functionals.Project(scans.Total.Fractions, scans.Diffuse is null ? [] : scans.Diffuse.Fractions, sums);
        Dual y = measurand.Differentiable(new DualReading(sums, evaluator.Method, evaluator.ColourTable.White));
        for (int j = 0; j < sums.Length; j++)
        {
            ReadOnlySpan<double> weights = functionals.Weights(j, out bool onDiffuse);
            for (int i = 0; i < n && (!onDiffuse || scans.Diffuse is not null); i++)
            {
                gradient[onDiffuse ? n + i : i] += y.Gradient[j] * weights[i];
            }
        }

        return gradient;
    }
}

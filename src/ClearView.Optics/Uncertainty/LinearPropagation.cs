using System.Collections.Immutable;
using System.Runtime.Intrinsics;

using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Uncertainty;

/// <summary>The law of propagation of uncertainty with full covariance, from the spectra to every measurand (JCGM 100, 5.2).</summary>
/// <remarks>
/// The covariance of each source is carried exactly to the weighted sums of <see cref="LinearFunctionals"/>; from there to a
/// measurand by automatic derivatives.
/// </remarks>
public sealed class LinearPropagation
{
    private readonly ReadingEvaluator _evaluator;
    private readonly LinearFunctionals _functionals;

    /// <summary>Prepares the weights.</summary>
    /// <param name="evaluator">The evaluator of the grid and method.</param>
    public LinearPropagation(ReadingEvaluator evaluator)
    {
        ArgumentNullException.ThrowIfNull(evaluator);
        _evaluator = evaluator;
        _functionals = new LinearFunctionals(evaluator);
    }

    /// <summary>Propagates.</summary>
    /// <param name="scans">The scans.</param>
    /// <param name="sources">The sources of error, independent of each other.</param>
    /// <param name="coverageProbability">Coverage probability, in (0, 1), for example 0.95.</param>
    /// <param name="measurands">The measurands wanted: those that the evaluation of the scans has a value for.</param>
    public ImmutableArray<MeasurandUncertainty> Propagate(
        TransmittanceScans scans,
        ImmutableArray<UncertaintySource> sources,
        double coverageProbability,
        ReadOnlySpan<Measurand> measurands)
    {
        ArgumentNullException.ThrowIfNull(scans);
        DualReading reading = Read(scans);
        double[][] covariances = [.. sources.Select(Covariance)];
        var results = ImmutableArray.CreateBuilder<MeasurandUncertainty>(measurands.Length);
        Span<double> contributions = stackalloc double[Math.Min(sources.Length, 64)];
        foreach (Measurand measurand in measurands)
        {
            if (measurand.Differentiable is not { } differentiable)
            {
                continue;
            }

            Dual y = differentiable(reading);
            double variance = 0;
            for (int s = 0; s < sources.Length; s++)
            {
                double part = QuadraticForm(y.Gradient, covariances[s], y.Gradient);
                contributions[s] = Math.Sqrt(Math.Max(part, 0));
                variance += Math.Max(part, 0);
            }

            results.Add(Summarise(measurand, y.Value, variance, sources, contributions, coverageProbability));
        }

        return results.ToImmutable();
    }

    /// <summary>Covariance of two measurands.</summary>
    /// <param name="scans">The scans.</param>
    /// <param name="sources">The sources of error.</param>
    /// <param name="one">One measurand, with a value.</param>
    /// <param name="other">Another, with a value.</param>
    /// <returns>The covariance, in the product of the two units.</returns>
    public double Covariance(TransmittanceScans scans, ImmutableArray<UncertaintySource> sources, Measurand one, Measurand other)
    {
        ArgumentNullException.ThrowIfNull(scans);
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(other);
        DualReading reading = Read(scans);
        Vector512<double> a = one.Differentiable!(reading).Gradient;
        Vector512<double> b = other.Differentiable!(reading).Gradient;
        return sources.Sum(source => QuadraticForm(a, Covariance(source), b));
    }

    private static MeasurandUncertainty Summarise(
        Measurand measurand,
        double value,
        double variance,
        ImmutableArray<UncertaintySource> sources,
        ReadOnlySpan<double> contributions,
        double coverageProbability)
    {
        var budget = ImmutableArray.CreateBuilder<Contribution>(sources.Length);
        double fourth = 0;
        for (int s = 0; s < sources.Length; s++)
        {
            double square = contributions[s] * contributions[s];
            budget.Add(new Contribution(sources[s], contributions[s], variance > 0 ? square / variance : 0));
            fourth += double.IsPositiveInfinity(sources[s].DegreesOfFreedom) ? 0 : square * square / sources[s].DegreesOfFreedom;
        }

        double degrees = fourth > 0 ? variance * variance / fourth : double.PositiveInfinity;
        return new MeasurandUncertainty(
            measurand,
            value,
            Math.Sqrt(variance),
            degrees,
            coverageProbability,
            Coverage.Factor(coverageProbability, degrees),
            budget.MoveToImmutable());
    }

    private static double QuadraticForm(Vector512<double> left, double[] covariance, Vector512<double> right)
    {
        double sum = 0;
        for (int row = 0; row < LinearFunctionals.Count; row++)
        {
            sum += left[row] * Vector512.Sum(Vector512.Create(covariance, row * LinearFunctionals.Count) * right);
        }

        return sum;
    }

    private DualReading Read(TransmittanceScans scans)
    {
        Span<double> sums = stackalloc double[LinearFunctionals.Count];
        _functionals.Project(scans.Total.Fractions, scans.Diffuse is null ? [] : scans.Diffuse.Fractions, sums);
        return new DualReading(sums, _evaluator.Method, _evaluator.ColourTable.White);
    }

    /// <summary>Covariance of the weighted sums under one source, 8 × 8 by rows.</summary>
    private double[] Covariance(UncertaintySource source)
    {
        const int n = LinearFunctionals.Count;
        var covariance = new double[n * n];
        if (source.Correlation == SourceCorrelation.WholeSpectrum)
        {
            Span<double> moved = stackalloc double[n];
            for (int component = 0; component < source.ComponentCount; component++)
            {
                _functionals.Project(source.TotalDeviation(component), source.DiffuseDeviation(component), moved);
                for (int j = 0; j < n; j++)
                {
                    for (int k = 0; k < n; k++)
                    {
                        covariance[(j * n) + k] += moved[j] * moved[k];
                    }
                }
            }

            return covariance;
        }

        double[] totalVariance = Squares(source.TotalDeviation(0));
        double[] diffuseVariance = Squares(source.DiffuseDeviation(0));
        for (int j = 0; j < n; j++)
        {
            ReadOnlySpan<double> a = _functionals.Weights(j, out bool aOnDiffuse);
            for (int k = 0; k <= j; k++)
            {
                ReadOnlySpan<double> b = _functionals.Weights(k, out bool bOnDiffuse);
                double[] variance = aOnDiffuse ? diffuseVariance : totalVariance;
                double value = aOnDiffuse != bOnDiffuse || variance.Length == 0 ? 0 : VectorMath.Dot(a, b, variance);
                covariance[(j * n) + k] = value;
                covariance[(k * n) + j] = value;
            }
        }

        return covariance;
    }

    private static double[] Squares(ReadOnlySpan<double> values)
    {
        var squares = new double[values.Length];
        for (int i = 0; i < squares.Length; i++)
        {
            squares[i] = values[i] * values[i];
        }

        return squares;
    }
}

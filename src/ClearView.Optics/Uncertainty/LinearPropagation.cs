using System.Collections.Immutable;

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
    /// <returns>One result per measurand that has a derivative here; the chroma of an exactly neutral colour, for one, has none.</returns>
    public ImmutableArray<MeasurandUncertainty> Propagate(
        TransmittanceScans scans,
        ImmutableArray<UncertaintySource> sources,
        double coverageProbability,
        ReadOnlySpan<Measurand> measurands)
    {
        ArgumentNullException.ThrowIfNull(scans);
        DualReading reading = Read(scans);
        double[][] covariances = [.. sources.Select(source => SumCovariance.Of(source, _functionals))];
        var results = ImmutableArray.CreateBuilder<MeasurandUncertainty>(measurands.Length);
        Span<double> contributions = sources.Length <= 64 ? stackalloc double[sources.Length] : new double[sources.Length];
        foreach (Measurand measurand in measurands)
        {
            double value;
            double variance = 0;
            if (measurand.Differentiable is { } differentiable)
            {
                Dual y = differentiable(reading);
                value = y.Value;
                for (int s = 0; s < sources.Length; s++)
                {
                    variance += Take(Propagation.Variance(y, covariances[s]), contributions, s);
                }
            }
            else if (measurand.Spectral!(scans, _evaluator.Method) is { } gradient)
            {
                value = gradient.Value;
                for (int s = 0; s < sources.Length; s++)
                {
                    variance += Take(gradient.Variance(sources[s]), contributions, s);
                }
            }
            else
            {
                continue;
            }

            // At a kink (chroma of an exactly neutral colour) there is no derivative, and so no linear uncertainty.
            if (double.IsFinite(variance) && double.IsFinite(value))
            {
                results.Add(Summarise(measurand, value, variance, sources, contributions, coverageProbability));
            }
        }

        return results.ToImmutable();
    }

    /// <summary>Covariance of two measurands.</summary>
    /// <param name="scans">The scans.</param>
    /// <param name="sources">The sources of error.</param>
    /// <param name="one">One measurand, with a value.</param>
    /// <param name="other">Another, with a value.</param>
    /// <returns>The covariance, in the product of the two units.</returns>
    /// <exception cref="ArgumentException">A measurand does not follow from weighted sums (bands, edges, scattering exponent).</exception>
    public double Covariance(TransmittanceScans scans, ImmutableArray<UncertaintySource> sources, Measurand one, Measurand other)
    {
        ArgumentNullException.ThrowIfNull(scans);
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(other);
        if (one.Differentiable is not { } first || other.Differentiable is not { } second)
        {
            throw new ArgumentException($"The covariance of {one} and {other} is not available: one does not follow from weighted sums.", nameof(other));
        }

        DualReading reading = Read(scans);
        Dual a = first(reading);
        Dual b = second(reading);
        return sources.Sum(source => Propagation.Covariance(a, SumCovariance.Of(source, _functionals), b));
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

    private static double Take(double variance, Span<double> contributions, int source)
    {
        // A quadratic form of a covariance is not negative; rounding may leave it a trace below zero.
        double kept = variance < 0 ? 0 : variance;
        contributions[source] = Math.Sqrt(kept);
        return kept;
    }

    private DualReading Read(TransmittanceScans scans)
    {
        Span<double> sums = stackalloc double[LinearFunctionals.Count];
        _functionals.Project(scans.Total.Fractions, scans.Diffuse is null ? [] : scans.Diffuse.Fractions, sums);
        return new DualReading(sums, _evaluator.Method, _evaluator.ColourTable.White);
    }
}

using System.Collections.Immutable;
using System.Runtime.InteropServices;

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
    private KeptCovariance? _last;

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
        return Propagate(scans, sources, new CoverageFactors(coverageProbability), measurands);
    }

    /// <summary>Propagates, with coverage factors that are kept from reading to reading.</summary>
    internal ImmutableArray<MeasurandUncertainty> Propagate(
        TransmittanceScans scans, ImmutableArray<UncertaintySource> sources, CoverageFactors factors, ReadOnlySpan<Measurand> measurands)
    {
        ReadingSensitivity sensitivity = Sensitivity(scans, sources);
        var results = ImmutableArray.CreateBuilder<MeasurandUncertainty>(measurands.Length);
        Span<double> contributions = sources.Length <= 64 ? stackalloc double[sources.Length] : new double[sources.Length];
        foreach (Measurand measurand in measurands)
        {
            if (sensitivity.TryContributions(measurand, contributions, out double value))
            {
                results.Add(Summarise(measurand, value, sources, contributions, factors));
            }
        }

        return results.DrainToImmutable();
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

    /// <summary>Combines what the sources contribute: u, effective degrees of freedom, coverage and budget.</summary>
    internal static MeasurandUncertainty Summarise(
        Measurand measurand,
        double value,
        ImmutableArray<UncertaintySource> sources,
        ReadOnlySpan<double> contributions,
        CoverageFactors factors)
    {
        Span<(double, double)> terms = sources.Length <= 64 ? stackalloc (double, double)[sources.Length] : new (double, double)[sources.Length];
        double variance = 0;
        for (int s = 0; s < terms.Length; s++)
        {
            terms[s] = (contributions[s], sources[s].DegreesOfFreedom);
            variance += contributions[s] * contributions[s];
        }

        var budget = new Contribution[terms.Length];
        for (int s = 0; s < budget.Length; s++)
        {
            budget[s] = new Contribution(sources[s], contributions[s], variance > 0 ? contributions[s] * contributions[s] / variance : 0);
        }

        double degrees = Coverage.EffectiveDegreesOfFreedom(terms);
        return new MeasurandUncertainty(
            measurand,
            value,
            Math.Sqrt(variance),
            degrees,
            factors.Probability,
            factors.For(degrees),
            ImmutableCollectionsMarshal.AsImmutableArray(budget));
    }

    /// <summary>A reading with its sources carried to the weighted sums.</summary>
    internal ReadingSensitivity Sensitivity(TransmittanceScans scans, ImmutableArray<UncertaintySource> sources)
    {
        var projections = new SourceProjection[sources.Length];
        Span<double> moved = stackalloc double[LinearFunctionals.Count];
        for (int s = 0; s < projections.Length; s++)
        {
            UncertaintySource source = sources[s];
            if (source is { Correlation: SourceCorrelation.WholeSpectrum, ComponentCount: 1 })
            {
                _functionals.Project(source.TotalDeviation(0), source.DiffuseDeviation(0), moved);
                projections[s] = new SourceProjection(source, moved);
            }
            else
            {
                projections[s] = new SourceProjection(source, Covariance(source));
            }
        }

        return new ReadingSensitivity(scans, _evaluator.Method, Read(scans), projections);
    }

    /// <summary>The covariance of the sums; kept for the source last seen, since repeatability is the same for reading after reading.</summary>
    private double[] Covariance(UncertaintySource source)
    {
        if (_last is { } last && ReferenceEquals(last.Source, source))
        {
            return last.Covariance;
        }

        double[] covariance = SumCovariance.Of(source, _functionals);
        _last = new KeptCovariance(source, covariance);
        return covariance;
    }

    private DualReading Read(TransmittanceScans scans)
    {
        Span<double> sums = stackalloc double[LinearFunctionals.Count];
        _functionals.Project(scans.Total.Fractions, scans.Diffuse is null ? [] : scans.Diffuse.Fractions, sums);
        return new DualReading(sums, _evaluator.Method, _evaluator.ColourTable.White);
    }

    private sealed record KeptCovariance(UncertaintySource Source, double[] Covariance);
}

using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Thickness;

namespace ClearView.Optics.Uncertainty;

/// <summary>The uncertainty of readings on one grid, under one method, from one set of figures: prepared once, then a pass per reading.</summary>
/// <remarks>For many readings in a row; <see cref="UncertaintyReport.Of(Evaluation, UncertaintyInputs, double, MonteCarloOptions?)"/>
/// is this for a single one. Thread-safe.</remarks>
public sealed class ReadingUncertaintyEvaluator
{
    private readonly ReadingEvaluator _evaluator;
    private readonly LinearPropagation _propagation;
    private readonly SourceBuilder _sources;
    private readonly CoverageFactors _factors;

    /// <summary>Prepares weights, sources and coverage factors.</summary>
    /// <param name="grid">The wavelengths, reaching over 400-700 nm at least.</param>
    /// <param name="method">The method.</param>
    /// <param name="inputs">What is known of the errors.</param>
    /// <param name="coverageProbability">Coverage probability, in (0, 1).</param>
    /// <exception cref="SpectrumRangeException">The grid does not reach over 400-700 nm.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A figure or the probability is outside its range.</exception>
    /// <exception cref="ArgumentException">The repeatability is on another grid.</exception>
    public ReadingUncertaintyEvaluator(WavelengthGrid grid, Method method, UncertaintyInputs inputs, double coverageProbability)
    {
        ArgumentNullException.ThrowIfNull(inputs);
        _evaluator = new ReadingEvaluator(grid, method);
        _propagation = new LinearPropagation(_evaluator);
        _sources = new SourceBuilder(inputs, grid);
        _factors = new CoverageFactors(coverageProbability);
    }

    /// <summary>The uncertainty of every measurand of an evaluation.</summary>
    /// <param name="evaluation">An evaluation of spectral scans, on this grid and under this method.</param>
    /// <param name="monteCarlo">A Monte Carlo run of every measurand to confirm the linear results; <see langword="null"/> for none.</param>
    /// <exception cref="ArgumentException">The evaluation rests on hazemeter readings, which have no spectra, on another grid or
    /// another method.</exception>
    public UncertaintyReport Evaluate(Evaluation evaluation, MonteCarloOptions? monteCarlo = null)
    {
        TransmittanceScans scans = Required(evaluation);
        ImmutableArray<UncertaintySource> sources = _sources.Build(scans);
        ImmutableArray<Measurand> measurands = MeasurandsOf(evaluation);
        return new UncertaintyReport(
            _propagation.Propagate(scans, sources, _factors, measurands.AsSpan()),
            monteCarlo is null || sources.IsEmpty
                ? []
                : Pair(measurands, MonteCarloPropagation.Run(_evaluator, scans, sources, measurands, monteCarlo)),
            scans,
            sources);
    }

    /// <summary>The uncertainty of the values at the reference thickness, from the errors of the measured spectra.</summary>
    internal UncertaintyReport EvaluateScaled(ScaledEvaluation scaled, TransmittanceScans measured, MonteCarloOptions? monteCarlo)
    {
        TransmittanceScans scans = Required(scaled.Evaluation);
        ThicknessScaling scaling = scaled.Scaling;
        var slopes = new double[measured.Grid.Count];
        for (int i = 0; i < slopes.Length; i++)
        {
            slopes[i] = scaling.Derivative(measured.Total.Fractions[i], measured.Grid[i]);
        }

        ImmutableArray<UncertaintySource> sources = _sources.Build(measured);
        ImmutableArray<UncertaintySource> carried = [.. sources.Select(source => source.Through(slopes))];
        ImmutableArray<Measurand> measurands = MeasurandsOf(scaled.Evaluation);
        return new UncertaintyReport(
            _propagation.Propagate(scans, carried, _factors, measurands.AsSpan()),
            monteCarlo is null || sources.IsEmpty
                ? []
                : Pair(measurands, MonteCarloPropagation.RunScaled(_evaluator, measured, sources, scaling, measurands, monteCarlo)),
            scans,
            carried);
    }

    private static ImmutableArray<(Measurand, MonteCarloResult)> Pair(ImmutableArray<Measurand> measurands, ImmutableArray<MonteCarloResult> results) =>
        [.. measurands.Zip(results)];

    private static ImmutableArray<Measurand> MeasurandsOf(Evaluation evaluation)
    {
        ImmutableArray<MeasuredValue> values = evaluation.Values;
        var measurands = ImmutableArray.CreateBuilder<Measurand>(values.Length);
        foreach (MeasuredValue value in values)
        {
            measurands.Add(value.Measurand);
        }

        return measurands.MoveToImmutable();
    }

    private TransmittanceScans Required(Evaluation evaluation)
    {
        ArgumentNullException.ThrowIfNull(evaluation);
        if (evaluation.Scans is not { } scans)
        {
            throw new ArgumentException("Hazemeter readings have no spectra to propagate uncertainty from.", nameof(evaluation));
        }

        if (scans.Grid != _evaluator.Grid || evaluation.Method != _evaluator.Method)
        {
            throw new ArgumentException("The evaluation is on another grid or under another method than was prepared for.", nameof(evaluation));
        }

        return scans;
    }
}

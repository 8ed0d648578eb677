using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Thickness;

namespace ClearView.Optics.Uncertainty;

/// <summary>The uncertainty of every measurand of an evaluation.</summary>
public sealed class UncertaintyReport
{
    // Below this a linear uncertainty cannot be told from none.
    private const int ValidationDigits = 1;

    private readonly Dictionary<Measurand, MeasurandUncertainty> _linear;
    private readonly Dictionary<Measurand, MonteCarloResult> _trials;

    private readonly Lazy<SpectralUncertainty> _spectra;

    private UncertaintyReport(
        IEnumerable<MeasurandUncertainty> linear,
        Dictionary<Measurand, MonteCarloResult> trials,
        TransmittanceScans scans,
        ImmutableArray<UncertaintySource> sources)
    {
        _spectra = new Lazy<SpectralUncertainty>(() => SpectralUncertainty.Of(scans, sources));
        _linear = linear.ToDictionary(result => result.Measurand);
        _trials = trials;
    }

    /// <summary>Every linear result, in the order of the evaluation's values.</summary>
    public IReadOnlyCollection<MeasurandUncertainty> Results => _linear.Values;

    /// <summary>Standard uncertainty of the spectra and of spectral haze at each wavelength; computed when first asked for.</summary>
    public SpectralUncertainty Spectra => _spectra.Value;

    /// <summary>Measurands whose linear result the Monte Carlo run does not confirm (JCGM 101, clause 8).</summary>
    public ImmutableArray<Measurand> NotConfirmed => [.. _trials.Keys.Where(measurand => !Confirms(measurand))];

    /// <summary>Computes it.</summary>
    /// <param name="evaluation">An evaluation of spectral scans.</param>
    /// <param name="inputs">What is known of the errors.</param>
    /// <param name="coverageProbability">Coverage probability, in (0, 1).</param>
    /// <param name="monteCarlo">A Monte Carlo run to confirm the linear result; <see langword="null"/> for none. It covers the measurands
    /// that follow from weighted sums, not bands, edges and the scattering exponent.</param>
    /// <exception cref="ArgumentException">The evaluation rests on hazemeter readings, which have no spectra.</exception>
    public static UncertaintyReport Of(
        Evaluation evaluation, UncertaintyInputs inputs, double coverageProbability, MonteCarloOptions? monteCarlo)
    {
        ArgumentNullException.ThrowIfNull(evaluation);
        ArgumentNullException.ThrowIfNull(inputs);
        if (evaluation.Scans is not { } scans)
        {
            throw new ArgumentException("Hazemeter readings have no spectra to propagate uncertainty from.", nameof(evaluation));
        }

        return Of(evaluation, inputs.ToSources(scans), coverageProbability, monteCarlo);
    }

    /// <summary>Computes it for the values at the reference thickness, from the errors of the measured spectra.</summary>
    /// <param name="scaled">The scaled evaluation.</param>
    /// <param name="measured">The evaluation that it was scaled from.</param>
    /// <param name="inputs">What is known of the errors.</param>
    /// <param name="coverageProbability">Coverage probability, in (0, 1).</param>
    public static UncertaintyReport OfScaled(
        ScaledEvaluation scaled, Evaluation measured, UncertaintyInputs inputs, double coverageProbability)
    {
        ArgumentNullException.ThrowIfNull(scaled);
        ArgumentNullException.ThrowIfNull(measured);
        ArgumentNullException.ThrowIfNull(inputs);
        ThicknessScaling scaling = scaled.Scaling;
        var scans = measured.Scans!;
        var slopes = new double[scans.Grid.Count];
        for (int i = 0; i < slopes.Length; i++)
        {
            slopes[i] = scaling.Derivative(scans.Total.Fractions[i], scans.Grid[i]);
        }

        return Of(scaled.Evaluation, [.. inputs.ToSources(scans).Select(source => source.Through(slopes))], coverageProbability, null);
    }

    /// <summary>The linear result of a measurand.</summary>
    /// <param name="measurand">The measurand.</param>
    /// <returns>The result; <see langword="null"/> where the measurand has no value or no derivative.</returns>
    public MeasurandUncertainty? Linear(Measurand measurand) => _linear.GetValueOrDefault(measurand);

    /// <summary>The Monte Carlo result of a measurand.</summary>
    /// <param name="measurand">The measurand.</param>
    /// <returns>The result; <see langword="null"/> where none was run.</returns>
    public MonteCarloResult? Trials(Measurand measurand) => _trials.GetValueOrDefault(measurand);

    /// <summary>Whether the Monte Carlo run confirms the linear result (JCGM 101, clause 8), to one significant digit of u.</summary>
    /// <param name="measurand">A measurand with both results.</param>
    public bool Confirms(Measurand measurand) =>
        Linear(measurand) is { } linear
        && Trials(measurand) is { UndefinedShare: 0 } trials
        && trials.Validates(
            linear.Value,
            linear.ExpandedUncertainty,
            MonteCarloResult.Tolerance(linear.StandardUncertainty, ValidationDigits));

    private static UncertaintyReport Of(
        Evaluation evaluation, ImmutableArray<UncertaintySource> sources, double coverageProbability, MonteCarloOptions? monteCarlo)
    {
        var scans = evaluation.Scans!;
        var evaluator = new ReadingEvaluator(scans.Grid, evaluation.Method);
        Measurand[] measurands = [.. evaluation.Values.Select(value => value.Measurand)];
        ImmutableArray<MeasurandUncertainty> linear = new LinearPropagation(evaluator).Propagate(scans, sources, coverageProbability, measurands);
        var trials = new Dictionary<Measurand, MonteCarloResult>();
        if (monteCarlo is not null && !sources.IsEmpty)
        {
            ImmutableArray<Measurand> drawn = [.. measurands.Where(m => m.Differentiable is not null)];
            ImmutableArray<MonteCarloResult> results = MonteCarloPropagation.Run(evaluator, scans, sources, drawn, monteCarlo);
            for (int i = 0; i < drawn.Length; i++)
            {
                trials[drawn[i]] = results[i];
            }
        }

        return new UncertaintyReport(linear, trials, scans, sources);
    }
}

using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Uncertainty;

/// <summary>The uncertainty of every measurand of an evaluation.</summary>
public sealed class UncertaintyReport
{
    // Digits of u regarded as meaningful when the two results are compared (JCGM 101, 8.2).
    private const int ValidationDigits = 1;

    private readonly ImmutableArray<MeasurandUncertainty> _linear;
    private readonly ImmutableArray<(Measurand Measurand, MonteCarloResult Result)> _trials;
    private readonly Lazy<SpectralUncertainty> _spectra;

    internal UncertaintyReport(
        ImmutableArray<MeasurandUncertainty> linear,
        ImmutableArray<(Measurand Measurand, MonteCarloResult Result)> trials,
        TransmittanceScans scans,
        ImmutableArray<UncertaintySource> sources)
    {
        _spectra = new Lazy<SpectralUncertainty>(() => SpectralUncertainty.Of(scans, sources));
        _linear = linear;
        _trials = trials;
    }

    /// <summary>Every linear result, in the order of the evaluation's values.</summary>
    public IReadOnlyCollection<MeasurandUncertainty> Results => _linear;

    /// <summary>Standard uncertainty of the spectra and of spectral haze at each wavelength; computed when first asked for.</summary>
    public SpectralUncertainty Spectra => _spectra.Value;

    /// <summary>Measurands whose linear result the Monte Carlo run does not confirm (JCGM 101, clause 8).</summary>
    public ImmutableArray<Measurand> NotConfirmed => [.. _trials.Select(trial => trial.Measurand).Where(measurand => !Confirms(measurand))];

    /// <summary>Computes it.</summary>
    /// <param name="evaluation">An evaluation of spectral scans.</param>
    /// <param name="inputs">What is known of the errors.</param>
    /// <param name="coverageProbability">Coverage probability, in (0, 1).</param>
    /// <param name="monteCarlo">A Monte Carlo run of every measurand to confirm the linear results; <see langword="null"/> for none.</param>
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

        return new ReadingUncertaintyEvaluator(scans.Grid, evaluation.Method, inputs, coverageProbability).Evaluate(evaluation, monteCarlo);
    }

    /// <summary>Computes it for the values at the reference thickness, from the errors of the measured spectra.</summary>
    /// <param name="scaled">The scaled evaluation.</param>
    /// <param name="measured">The evaluation that it was scaled from.</param>
    /// <param name="inputs">What is known of the errors.</param>
    /// <param name="coverageProbability">Coverage probability, in (0, 1).</param>
    /// <param name="monteCarlo">A Monte Carlo run of every measurand, the measured spectra drawn and scaled at every trial;
    /// <see langword="null"/> for none.</param>
    public static UncertaintyReport OfScaled(
        ScaledEvaluation scaled, Evaluation measured, UncertaintyInputs inputs, double coverageProbability, MonteCarloOptions? monteCarlo = null)
    {
        ArgumentNullException.ThrowIfNull(scaled);
        ArgumentNullException.ThrowIfNull(measured);
        ArgumentNullException.ThrowIfNull(inputs);
        TransmittanceScans scans = measured.Scans!;
        return new ReadingUncertaintyEvaluator(scans.Grid, scaled.Evaluation.Method, inputs, coverageProbability).EvaluateScaled(scaled, scans, monteCarlo);
    }

    /// <summary>The linear result of a measurand.</summary>
    /// <param name="measurand">The measurand.</param>
    /// <returns>The result; <see langword="null"/> where the measurand has no value or no derivative.</returns>
    public MeasurandUncertainty? Linear(Measurand measurand) => _linear.FirstOrDefault(result => result.Measurand == measurand);

    /// <summary>The Monte Carlo result of a measurand.</summary>
    /// <param name="measurand">The measurand.</param>
    /// <returns>The result; <see langword="null"/> where none was run.</returns>
    public MonteCarloResult? Trials(Measurand measurand) => _trials.FirstOrDefault(trial => trial.Measurand == measurand).Result;

    /// <summary>Whether the Monte Carlo run confirms the linear result (JCGM 101, clause 8), to one significant digit of u.</summary>
    /// <param name="measurand">A measurand with both results.</param>
    public bool Confirms(Measurand measurand) =>
        Linear(measurand) is { } linear
        && Trials(measurand) is { UndefinedShare: 0 } trials
        && trials.Validates(
            linear.Value,
            linear.ExpandedUncertainty,
            MonteCarloResult.Tolerance(linear.StandardUncertainty, ValidationDigits));
}

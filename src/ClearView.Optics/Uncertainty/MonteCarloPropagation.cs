using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Thickness;

namespace ClearView.Optics.Uncertainty;

/// <summary>Propagation of distributions from the spectra to measurands by the Monte Carlo method (JCGM 101).</summary>
/// <remarks>
/// Whole spectra are drawn, with independent errors where a source acts per wavelength and one error where it moves whole
/// spectra; at every trial each measurand is evaluated in full. Where only measurands are wanted that follow from weighted sums,
/// the sums are drawn instead: they are linear in the spectra, so that a joint normal draw with their exact covariance is the same.
/// </remarks>
public static class MonteCarloPropagation
{
    /// <summary>Runs the method.</summary>
    /// <param name="evaluator">The evaluator of the grid and method.</param>
    /// <param name="scans">The scans.</param>
    /// <param name="sources">The sources of error, independent of each other.</param>
    /// <param name="measurands">The measurands wanted, each with a value for these scans.</param>
    /// <param name="options">How to run.</param>
    /// <returns>One result per measurand, in order.</returns>
    public static ImmutableArray<MonteCarloResult> Run(
        ReadingEvaluator evaluator,
        TransmittanceScans scans,
        ImmutableArray<UncertaintySource> sources,
        ImmutableArray<Measurand> measurands,
        MonteCarloOptions options)
    {
        ArgumentNullException.ThrowIfNull(evaluator);
        ArgumentNullException.ThrowIfNull(scans);
        var trial = new MeasurandTrial(evaluator, scans, measurands);
        if (measurands.Any(measurand => measurand.Differentiable is null))
        {
            var draw = new SpectrumDraw(scans, sources);
            return AdaptiveMonteCarlo.Run(
                measurands.Length,
                (random, outputs) =>
                {
                    draw.Next(random);
                    trial.Evaluate(draw.Total, draw.Diffuse, outputs);
                },
                options);
        }

        SumDraw[] draws = [.. sources.Select(source => SumDraw.Of(source, trial.Functionals))];
        double[] sums = new double[LinearFunctionals.Count];
        return AdaptiveMonteCarlo.Run(
            measurands.Length,
            (random, outputs) =>
            {
                trial.Centre.CopyTo(sums);
                foreach (SumDraw draw in draws)
                {
                    draw.AddTo(sums, random);
                }

                trial.Evaluate(sums, outputs);
            },
            options);
    }

    /// <summary>Runs the method through a scaling of thickness: total transmittance is drawn as measured and scaled at every trial.</summary>
    /// <param name="evaluator">The evaluator of the grid and method.</param>
    /// <param name="measured">The scans as measured.</param>
    /// <param name="sources">Their sources of error, independent of each other.</param>
    /// <param name="scaling">The scaling; a trial that it refuses is undefined for every measurand.</param>
    /// <param name="measurands">The measurands wanted, each with a value for the scaled total transmittance.</param>
    /// <param name="options">How to run.</param>
    /// <returns>One result per measurand, in order.</returns>
    public static ImmutableArray<MonteCarloResult> RunScaled(
        ReadingEvaluator evaluator,
        TransmittanceScans measured,
        ImmutableArray<UncertaintySource> sources,
        ThicknessScaling scaling,
        ImmutableArray<Measurand> measurands,
        MonteCarloOptions options)
    {
        ArgumentNullException.ThrowIfNull(evaluator);
        ArgumentNullException.ThrowIfNull(measured);
        ArgumentNullException.ThrowIfNull(scaling);
        var trial = new MeasurandTrial(evaluator, new TransmittanceScans(scaling.Scale(measured.Total), null), measurands);
        var draw = new SpectrumDraw(measured, sources);
        return AdaptiveMonteCarlo.Run(
            measurands.Length,
            (random, outputs) =>
            {
                draw.Next(random);
                try
                {
                    TransmittanceSpectrum scaled = scaling.Scale(TransmittanceSpectrum.FromFractions(measured.Grid, draw.Total));
                    trial.Evaluate(scaled.Fractions, [], outputs);
                }
                catch (ArgumentException)
                {
                    // Internal transmittance, or the spectrum itself, is outside what can be.
                    outputs.Fill(double.NaN);
                }
            },
            options);
    }
}

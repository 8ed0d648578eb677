using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Uncertainty;

/// <summary>Propagation of distributions from the spectra to measurands by the Monte Carlo method (JCGM 101).</summary>
/// <remarks>
/// The weighted sums are linear in the spectra, so that errors are drawn where they act without loss: a source per wavelength
/// moves the sums by a joint normal draw with its exact covariance, a source on whole spectra by one draw per error. What is
/// curved, from the sums to a measurand, is evaluated in full at every trial.
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
        var functionals = new LinearFunctionals(evaluator);
        var centre = new double[LinearFunctionals.Count];
        functionals.Project(scans.Total.Fractions, scans.Diffuse is null ? [] : scans.Diffuse.Fractions, centre);
        SumDraw[] draws = [.. sources.Select(source => SumDraw.Of(source, functionals))];
        var differentiable = measurands.Select(m => m.Differentiable!).ToArray();
        bool[] wraps = [.. measurands.Select(m => m.IsAngle)];
        var best = new DualReading(centre, evaluator.Method, evaluator.ColourTable.White);
        double[] estimates = [.. differentiable.Select(f => f(best).Value)];

        var sums = new double[LinearFunctionals.Count];
        return AdaptiveMonteCarlo.Run(
            measurands.Length,
            (random, outputs) =>
            {
                centre.CopyTo(sums, 0);
                foreach (SumDraw draw in draws)
                {
                    draw.AddTo(sums, random);
                }

                var reading = new DualReading(sums, evaluator.Method, evaluator.ColourTable.White);
                for (int j = 0; j < differentiable.Length; j++)
                {
                    double value = differentiable[j](reading).Value;

                    // An angle is taken on the branch nearest to the estimate, or 359° and 1° would be far apart.
                    outputs[j] = wraps[j] ? estimates[j] + Math.IEEERemainder(value - estimates[j], 360) : value;
                }
            },
            options);
    }
}

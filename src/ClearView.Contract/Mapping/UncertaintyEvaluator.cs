using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Uncertainty;

namespace ClearView.Contract.Mapping;

/// <summary>Computes the uncertainty that a method asks for.</summary>
internal static class UncertaintyEvaluator
{
    public static EvaluatedUncertainty? Evaluate(Evaluation evaluation, V1.UncertaintyInputs wire, string path, Violations violations)
    {
        if (evaluation.Scans is not { } scans)
        {
            violations.Add(path, $"was given; expected spectral scans, since hazemeter readings have no spectra to propagate it from.");
            return null;
        }

        if (UncertaintyReader.Read(wire, scans.Grid, path, violations) is not { } inputs)
        {
            return null;
        }

        double coverage = wire.CoveragePercent / 100;
        MonteCarloOptions? run = wire.MonteCarlo is null ? null : Options(wire.MonteCarlo, coverage);
        return new EvaluatedUncertainty(
            UncertaintyReport.Of(evaluation, inputs, coverage, run),
            evaluation.AtReferenceThickness is { } scaled ? UncertaintyReport.OfScaled(scaled, evaluation, inputs, coverage) : null);
    }

    private static MonteCarloOptions Options(V1.MonteCarlo wire, double coverage)
    {
        // JCGM 101, 7.9.4: at least 100/(1 − p) trials a block.
        int block = (int)Math.Min(Math.Max(10_000, Math.Ceiling(100 / (1 - coverage))), 100_000);
        return new MonteCarloOptions(wire.Seed, Math.Min(coverage, 0.999), wire.SignificantDigits == 0 ? 1 : wire.SignificantDigits, block, Math.Max(200_000, 2 * block));
    }
}

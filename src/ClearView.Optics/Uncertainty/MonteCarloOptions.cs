namespace ClearView.Optics.Uncertainty;

/// <summary>How the Monte Carlo method runs (JCGM 101, clause 7).</summary>
/// <param name="Seed">The seed; the same seed gives the same result.</param>
/// <param name="CoverageProbability">Coverage probability of the interval, in (0, 1).</param>
/// <param name="SignificantDigits">Significant decimal digits of the standard uncertainty that are to be stable, 1 or 2 (JCGM 101, 7.9.2).</param>
/// <param name="TrialsPerBlock">Trials per block, at least 100/(1 − p) (JCGM 101, 7.9.4).</param>
/// <param name="MostTrials">Bound on all trials; a result that is not stable by then says so.</param>
public sealed record MonteCarloOptions(
    int Seed,
    double CoverageProbability,
    int SignificantDigits = 2,
    int TrialsPerBlock = 10_000,
    int MostTrials = 200_000);

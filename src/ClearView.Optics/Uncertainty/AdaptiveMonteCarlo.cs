using System.Collections.Immutable;
using System.Runtime.InteropServices;

namespace ClearView.Optics.Uncertainty;

/// <summary>The adaptive Monte Carlo procedure of JCGM 101, 7.9, for any model.</summary>
public static class AdaptiveMonteCarlo
{
    /// <summary>One trial: draws the inputs and writes the outputs; NaN where an output is undefined.</summary>
    /// <param name="random">The draws.</param>
    /// <param name="outputs">Takes one value per output quantity.</param>
    public delegate void Trial(TrialRandom random, Span<double> outputs);

    /// <summary>Runs blocks of trials until every output is stable to its tolerance, or the bound is reached.</summary>
    /// <param name="outputCount">Number of output quantities, 1 or more.</param>
    /// <param name="trial">The model.</param>
    /// <param name="options">How to run.</param>
    /// <exception cref="ArgumentOutOfRangeException">An option is outside its range.</exception>
    public static ImmutableArray<MonteCarloResult> Run(int outputCount, Trial trial, MonteCarloOptions options)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(outputCount, 1);
        ArgumentNullException.ThrowIfNull(trial);
        ArgumentNullException.ThrowIfNull(options);
        Check(options);
        var random = new TrialRandom(options.Seed);
        var all = new List<double>[outputCount];
        var blocks = new List<BlockSummary>[outputCount];
        for (int j = 0; j < outputCount; j++)
        {
            all[j] = [];
            blocks[j] = [];
        }

        var outputs = new double[outputCount];
        int trials = 0;
        bool stable = false;
        while (!stable && trials + options.TrialsPerBlock <= options.MostTrials)
        {
            for (int i = 0; i < options.TrialsPerBlock; i++)
            {
                trial(random, outputs);
                for (int j = 0; j < outputCount; j++)
                {
                    if (!double.IsNaN(outputs[j]))
                    {
                        all[j].Add(outputs[j]);
                    }
                }
            }

            int before = trials;
            trials += options.TrialsPerBlock;
            for (int j = 0; j < outputCount; j++)
            {
                int kept = blocks[j].Sum(b => b.Count);
                blocks[j].Add(BlockSummary.Of(CollectionsMarshal.AsSpan(all[j])[kept..], options.CoverageProbability));
            }

            stable = before > 0 && blocks.All(b => IsStable(b, options));
        }

        return [.. Enumerable.Range(0, outputCount).Select(j => Summarise(all[j], blocks[j], trials, options))];
    }

    private static void Check(MonteCarloOptions options)
    {
        if (!(options.CoverageProbability is > 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(options), options.CoverageProbability, "expected a coverage probability above 0 and below 1.");
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(options.SignificantDigits, 1, nameof(options));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(options.SignificantDigits, 3, nameof(options));
        ArgumentOutOfRangeException.ThrowIfLessThan(options.TrialsPerBlock, (int)Math.Ceiling(100 / (1 - options.CoverageProbability)), nameof(options));
        ArgumentOutOfRangeException.ThrowIfLessThan(options.MostTrials, 2 * options.TrialsPerBlock, nameof(options));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(options.MostTrials, 5_000_000, nameof(options));
    }

    /// <summary>JCGM 101, 7.9.4 f) to k): twice the standard deviation of the averages over blocks is below δ.</summary>
    private static bool IsStable(List<BlockSummary> blocks, MonteCarloOptions options)
    {
        double u = Math.Sqrt(blocks.Average(b => b.StandardDeviation * b.StandardDeviation));
        double tolerance = Math.Max(MonteCarloResult.Tolerance(u, options.SignificantDigits), MonteCarloResult.Rounding(blocks[^1].Mean));
        return Spread(blocks, b => b.Mean) <= tolerance
            && Spread(blocks, b => b.StandardDeviation) <= tolerance
            && Spread(blocks, b => b.Low) <= tolerance
            && Spread(blocks, b => b.High) <= tolerance;
    }

    private static double Spread(List<BlockSummary> blocks, Func<BlockSummary, double> read)
    {
        double mean = blocks.Average(read);
        double square = blocks.Sum(b => Math.Pow(read(b) - mean, 2));
        int h = blocks.Count;
        return 2 * Math.Sqrt(square / (h * (h - 1.0)));
    }

    private static MonteCarloResult Summarise(List<double> values, List<BlockSummary> blocks, int trials, MonteCarloOptions options)
    {
        BlockSummary whole = BlockSummary.Of(CollectionsMarshal.AsSpan(values), options.CoverageProbability);
        return new MonteCarloResult(
            whole.Mean,
            whole.StandardDeviation,
            whole.Low,
            whole.High,
            trials,
            MonteCarloResult.Tolerance(whole.StandardDeviation, options.SignificantDigits),
            IsStable(blocks, options),
            1 - ((double)values.Count / trials));
    }
}

using ClearView.Quality.Descriptive;
using ClearView.Quality.Distributions;

namespace ClearView.Quality.Lots;

/// <summary>Tests of all lots at once.</summary>
internal static class OneWay
{
    /// <summary>Classical analysis of variance (Fisher; NIST/SEMATECH e-Handbook 7.4.3), in double-double arithmetic.</summary>
    public static AnovaTable Classical(IReadOnlyList<Lot> lots)
    {
        DoubleDouble total = DoubleDouble.Zero;
        int count = 0;
        foreach (Lot lot in lots)
        {
            total = lot.Values.Aggregate(total, (sum, value) => sum.Add(value));
            count += lot.Values.Length;
        }

        DoubleDouble grand = total.DivideBy(count);
        DoubleDouble between = DoubleDouble.Zero;
        DoubleDouble within = DoubleDouble.Zero;
        foreach (Lot lot in lots)
        {
            DoubleDouble mean = DoubleDouble.Mean(lot.Values);
            DoubleDouble deviation = mean.Subtract(grand);
            between = between.Add(deviation.Multiply(deviation).Multiply(new DoubleDouble(lot.Values.Length, 0)));
            within = Spreads(lot) ? within.Add(DoubleDouble.SquaresAround(lot.Values, mean)) : within;
        }

        double betweenSquares = lots.Any(lot => lot.Values.Any(value => value != lots[0].Values[0])) ? between.ToDouble() : 0;
        double withinSquares = within.ToDouble();
        int numerator = lots.Count - 1;
        int denominator = count - lots.Count;
        return new AnovaTable(betweenSquares, withinSquares, numerator, denominator, Test());

        Stated<FTest> Test()
        {
            if (denominator == 0)
            {
                return Stated<FTest>.Not(DegenerateReason.TooFewSpecimens, "Each lot has one specimen only: nothing tells how specimens of a lot differ.");
            }

            if (withinSquares == 0)
            {
                return Stated<FTest>.Not(DegenerateReason.NoSpread, betweenSquares == 0
                    ? "All values are the same, in every lot."
                    : "Specimens of each lot are identical while the lots differ: no F can be formed.");
            }

            double f = betweenSquares / numerator / (withinSquares / denominator);
            return Stated<FTest>.As(new FTest(f, numerator, denominator, TestTail.FisherUpper(f, numerator, denominator)));
        }
    }

    /// <summary>Analysis of variance for lots of unequal variance (Welch 1951).</summary>
    public static Stated<FTest> Welch(IReadOnlyList<LotSummary> lots)
    {
        if (LacksSpread(lots) is { } reason)
        {
            return Stated<FTest>.Not(reason.Reason, reason.Explanation);
        }

        int k = lots.Count;
        double origin = lots[0].Statistics.Mean;
        double[] weights = [.. lots.Select(lot => lot.Statistics.Count / lot.Statistics.Variance!.Value)];
        double sum = weights.Sum();
        double centre = weights.Zip(lots, (weight, lot) => weight * (lot.Statistics.Mean - origin)).Sum() / sum;
        double between = weights.Zip(lots, (weight, lot) => weight * Math.Pow(lot.Statistics.Mean - origin - centre, 2)).Sum() / (k - 1);
        double lambda = weights.Zip(lots, (weight, lot) => Math.Pow(1 - (weight / sum), 2) / (lot.Statistics.Count - 1)).Sum() / ((k * (double)k) - 1);
        double f = between / (1 + (2 * (k - 2) * lambda));
        double denominator = 1 / (3 * lambda);
        return Stated<FTest>.As(new FTest(f, k - 1, denominator, TestTail.FisherUpper(f, k - 1, denominator)));
    }

    /// <summary>Rank test (Kruskal and Wallis 1952) with mid-ranks and correction for ties.</summary>
    public static Stated<KruskalWallisTest> KruskalWallis(IReadOnlyList<Lot> lots)
    {
        (double Value, int Lot)[] all = [.. lots.SelectMany((lot, index) => lot.Values.Select(value => (value, index))).OrderBy(one => one.value)];
        double[] rankSums = new double[lots.Count];
        double ties = 0;
        for (int first = 0; first < all.Length;)
        {
            int next = first;
            while (next < all.Length && all[next].Value == all[first].Value)
            {
                next++;
            }

            double tied = next - first;
            ties += (tied * tied * tied) - tied;
            for (int i = first; i < next; i++)
            {
                rankSums[all[i].Lot] += (first + next + 1) / 2.0;
            }

            first = next;
        }

        double n = all.Length;
        double correction = 1 - (ties / ((n * n * n) - n));
        if (correction <= 0)
        {
            return Stated<KruskalWallisTest>.Not(DegenerateReason.NoSpread, "All values are the same: ranks tell nothing.");
        }

        double middle = (n + 1) / 2;
        double squares = rankSums.Zip(lots, (sum, lot) => lot.Values.Length * Math.Pow((sum / lot.Values.Length) - middle, 2)).Sum();
        double h = 12 / (n * (n + 1)) * squares / correction;
        return Stated<KruskalWallisTest>.As(new KruskalWallisTest(h, lots.Count - 1, TestTail.ChiSquaredUpper(h, lots.Count - 1), correction));
    }

    /// <summary>The first lot whose own spread cannot be had.</summary>
    public static (DegenerateReason Reason, string Explanation)? LacksSpread(IEnumerable<LotSummary> lots)
    {
        foreach (LotSummary lot in lots)
        {
            if (lot.Statistics.Count < 2)
            {
                return (DegenerateReason.TooFewSpecimens, $"Lot {lot.Name} has one specimen only: its spread is unknown.");
            }

            if (lot.Statistics.StandardDeviation == 0)
            {
                return (DegenerateReason.NoSpread, $"The specimens of lot {lot.Name} are identical: its spread is zero.");
            }
        }

        return null;
    }

    private static bool Spreads(Lot lot) => lot.Values.Any(value => value != lot.Values[0]);
}

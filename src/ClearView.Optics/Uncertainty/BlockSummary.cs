namespace ClearView.Optics.Uncertainty;

/// <summary>Mean, standard deviation and symmetric coverage interval of a block of trials (JCGM 101, 7.6, 7.7).</summary>
internal sealed record BlockSummary(int Count, double Mean, double StandardDeviation, double Low, double High)
{
    /// <summary>Summarises; the values are left in another order.</summary>
    public static BlockSummary Of(Span<double> values, double coverageProbability)
    {
        int m = values.Length;
        if (m < 2)
        {
            return new BlockSummary(m, double.NaN, double.NaN, double.NaN, double.NaN);
        }

        double sum = 0;
        foreach (double value in values)
        {
            sum += value;
        }

        double mean = sum / m;
        double square = 0;
        foreach (double value in values)
        {
            square += (value - mean) * (value - mean);
        }

        // JCGM 101, 7.7.2: q = pM (rounded), r = (M − q)/2 (rounded up); the interval is [y(r), y(r+q)], counted from 1.
        int q = (int)Math.Round(coverageProbability * m);
        int r = (m - q + 1) / 2;
        int low = Math.Max(r - 1, 0);
        int high = Math.Min(r + q - 1, m - 1);
        double lowest = OrderStatistic.Select(values, low);
        double highest = high == low ? lowest : OrderStatistic.Select(values[(low + 1)..], high - low - 1);
        return new BlockSummary(m, mean, Math.Sqrt(square / (m - 1)), lowest, highest);
    }
}

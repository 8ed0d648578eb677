namespace ClearView.Plotting.Charts;

/// <summary>Ends of an axis that leave room around the data.</summary>
internal static class AxisRange
{
    private const double PaddingShare = 0.08;

    /// <summary>Lowest and highest finite value, widened to at least <paramref name="leastSpan"/> and by some room.</summary>
    public static (double Minimum, double Maximum) Around(IEnumerable<double> values, double leastSpan)
    {
        double low = double.PositiveInfinity;
        double high = double.NegativeInfinity;
        foreach (double value in values.Where(double.IsFinite))
        {
            low = Math.Min(low, value);
            high = Math.Max(high, value);
        }

        if (low > high)
        {
            return (0, leastSpan);
        }

        double missing = Math.Max(0, leastSpan - (high - low));
        double padding = (PaddingShare * (high - low)) + (missing / 2);
        return (low - padding, high + padding);
    }
}

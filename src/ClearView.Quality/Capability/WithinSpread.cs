using ClearView.Quality.ControlCharts;

namespace ClearView.Quality.Capability;

/// <summary>σ within subgroups, with its degrees of freedom and the chart it belongs to.</summary>
internal sealed record WithinSpread(ControlLimits Limits, double StandardDeviation, double DegreesOfFreedom)
{
    /// <summary>From the moving range, or pooled over subgroups.</summary>
    /// <returns><see langword="null"/> where there is no spread or there are too few readings.</returns>
    public static WithinSpread? Of(ReadOnlySpan<double> readings, int subgroupSize)
    {
        if (subgroupSize == 1)
        {
            return ControlBaseline.OfIndividuals(readings) is { HasLimits: true } individuals
                ? new WithinSpread(individuals.Limits, individuals.Limits.StandardDeviation, OfMovingRange(readings.Length - 1))
                : null;
        }

        int count = readings.Length / subgroupSize;
        Subgroup[] subgroups = new Subgroup[count];
        double square = 0;
        for (int i = 0; i < count; i++)
        {
            subgroups[i] = Subgroup.Of(readings.Slice(i * subgroupSize, subgroupSize));
            square += subgroups[i].StandardDeviation * subgroups[i].StandardDeviation;
        }

        return ControlBaseline.OfSubgroups(ControlChartKind.AveragesWithRange, subgroups) is { HasLimits: true } averages
            ? new WithinSpread(averages.Limits, Math.Sqrt(square / count), count * (subgroupSize - 1.0))
            : null;
    }

    // ν for which a chi estimate has the variance of the mean of m overlapping moving ranges, derived on the page:
    // Var|X₁ − X₂| = 2 − 4/π; Cov(|X₁ − X₂|, |X₂ − X₃|) = (4/π)(√3/2 + π/12) − 4/π, since the differences correlate with −1/2.
    private static double OfMovingRange(int ranges)
    {
        double mean = 4 / Math.PI;
        double own = 2 - mean;
        double neighbours = (mean * ((Math.Sqrt(3) / 2) + (Math.PI / 12))) - mean;
        double variance = ((ranges * own) + (2 * (ranges - 1.0) * neighbours)) / ranges / ranges / mean;
        return 1 / (2 * variance);
    }
}

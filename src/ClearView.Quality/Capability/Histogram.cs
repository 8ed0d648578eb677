using System.Collections.Immutable;

using ClearView.Quality.Descriptive;

using MathNet.Numerics.Distributions;

namespace ClearView.Quality.Capability;

/// <summary>Readings counted in bins of equal width, from the smallest reading to the largest.</summary>
/// <param name="From">Lower edge of the first bin, in the unit of the readings.</param>
/// <param name="To">Upper edge of the last bin, which holds a reading on it.</param>
/// <param name="Counts">Number of readings of each bin.</param>
/// <remarks>
/// The width is 2·IQR·n^(−1/3) (Freedman and Diaconis 1981), 3.49·s·n^(−1/3) (Scott 1979) where the quartiles are the same;
/// the number of bins is kept between 5 and 60, so that a chart can show them.
/// </remarks>
public sealed record Histogram(double From, double To, ImmutableArray<long> Counts)
{
    /// <summary>Fewest bins of readings that differ.</summary>
    public const int FewestBins = 5;

    /// <summary>Most bins.</summary>
    public const int MostBins = 60;

    /// <summary>Counts readings, in one pass.</summary>
    /// <param name="readings">The readings, finite, in the order of measurement; of more than 5000 the width is taken from evenly spaced ones.</param>
    /// <returns>No bin without readings; one, a unit wide, where none differs.</returns>
    /// <exception cref="ArgumentException">A reading is not finite.</exception>
    public static Histogram Of(ReadOnlySpan<double> readings)
    {
        if (readings.IsEmpty)
        {
            return new Histogram(0, 0, []);
        }

        (double least, double greatest) = (readings[0], readings[0]);
        foreach (double reading in readings)
        {
            Finite.Check(reading, nameof(readings));
            least = Math.Min(least, reading);
            greatest = Math.Max(greatest, reading);
        }

        if (least == greatest)
        {
            return new Histogram(least - 0.5, least + 0.5, [readings.Length]);
        }

        long[] counts = new long[BinsOf(readings, greatest - least)];
        double perUnit = counts.Length / (greatest - least);
        foreach (double reading in readings)
        {
            counts[Math.Min((int)((reading - least) * perUnit), counts.Length - 1)]++;
        }

        return new Histogram(least, greatest, [.. counts]);
    }

    /// <summary>Lower edge of a bin; that of the number of bins is the upper edge of the last one.</summary>
    /// <param name="bin">Bin, from 0.</param>
    public double EdgeOf(int bin) => bin == Counts.Length ? To : From + (bin * (To - From) / Counts.Length);

    /// <summary>Readings that a model expects in each bin.</summary>
    /// <param name="result">The capability of the same readings.</param>
    /// <returns>Empty where the indices rest on no model with a density.</returns>
    public ImmutableArray<double> Expected(CapabilityResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        if (result is not { ModelMean: { } mean, ModelStandardDeviation: { } deviation })
        {
            return [];
        }

        double Below(int bin)
        {
            double edge = EdgeOf(bin);
            return Normal.CDF(mean, deviation, result.Transformation is { } transformation ? transformation.Transform(edge) : edge);
        }

        return [.. Enumerable.Range(0, Counts.Length).Select(bin => result.Count * (Below(bin + 1) - Below(bin)))];
    }

    private static int BinsOf(ReadOnlySpan<double> readings, double range)
    {
        double[] sample = ProcessCapability.Spaced(readings).ToArray();
        Array.Sort(sample);
        double between = DescriptiveStatistics.Quantile(sample, 0.75) - DescriptiveStatistics.Quantile(sample, 0.25);
        double perReading = between > 0 ? 2 * between : 3.49 * Moments.Of(readings).StandardDeviation;
        double bins = Math.Ceiling(range * Math.Cbrt(readings.Length) / perReading);
        return (int)Math.Clamp(bins, FewestBins, MostBins);
    }
}

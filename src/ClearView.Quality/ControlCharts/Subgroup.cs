using ClearView.Quality.Descriptive;

namespace ClearView.Quality.ControlCharts;

/// <summary>What a chart needs of one subgroup.</summary>
/// <param name="Size">Number of readings, 1 or more.</param>
/// <param name="Mean">Their mean.</param>
/// <param name="Range">Largest less smallest; 0 for one reading.</param>
/// <param name="StandardDeviation">Standard deviation with n − 1; 0 for one reading.</param>
public readonly record struct Subgroup(int Size, double Mean, double Range, double StandardDeviation)
{
    /// <summary>Summarises readings.</summary>
    /// <param name="readings">The readings, one or more, finite.</param>
    /// <exception cref="ArgumentException">There is no reading, or one is not finite.</exception>
    public static Subgroup Of(ReadOnlySpan<double> readings)
    {
        if (readings.IsEmpty)
        {
            throw new ArgumentException("A subgroup needs one reading or more.", nameof(readings));
        }

        double sum = 0;
        double smallest = double.PositiveInfinity;
        double largest = double.NegativeInfinity;
        foreach (double reading in readings)
        {
            Finite.Check(reading, nameof(readings));
            sum += reading;
            smallest = Math.Min(smallest, reading);
            largest = Math.Max(largest, reading);
        }

        double mean = sum / readings.Length;
        double square = 0;
        foreach (double reading in readings)
        {
            square += (reading - mean) * (reading - mean);
        }

        return new Subgroup(readings.Length, mean, largest - smallest, readings.Length > 1 ? Math.Sqrt(square / (readings.Length - 1)) : 0);
    }
}

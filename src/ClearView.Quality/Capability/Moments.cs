namespace ClearView.Quality.Capability;

/// <summary>Mean and standard deviation, in two passes.</summary>
internal readonly record struct Moments(double Mean, double StandardDeviation)
{
    public static Moments Of(ReadOnlySpan<double> readings)
    {
        double first = readings[0];
        double sum = 0;
        foreach (double reading in readings)
        {
            sum += reading - first;
        }

        double mean = first + (sum / readings.Length);
        double square = 0;
        foreach (double reading in readings)
        {
            square += (reading - mean) * (reading - mean);
        }

        return new Moments(mean, Math.Sqrt(square / (readings.Length - 1)));
    }
}

using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Contract.Tests.Series;

/// <summary>Series that a caller brings along.</summary>
internal static class GivenExamples
{
    public static GivenSeries Haze(params double[] values) => new() { Measurand = "haze", Value = { values } };

    /// <summary>Seeded normal readings, moved and stretched to have exactly a mean and a standard deviation.</summary>
    public static double[] Exactly(int seed, int count, double mean, double deviation)
    {
        var random = new Random(seed);
        double[] drawn = [.. Enumerable.Range(0, count).Select(_ => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()))];
        double average = drawn.Average();
        double s = Math.Sqrt(drawn.Sum(value => (value - average) * (value - average)) / (count - 1));
        return [.. drawn.Select(value => mean + (deviation * (value - average) / s))];
    }

    public static Timestamp At(double seconds) => Timestamp.FromDateTimeOffset(new DateTimeOffset(2025, 3, 1, 8, 0, 0, TimeSpan.Zero).AddSeconds(seconds));
}

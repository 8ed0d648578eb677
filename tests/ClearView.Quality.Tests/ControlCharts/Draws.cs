namespace ClearView.Quality.Tests.ControlCharts;

/// <summary>Seeded normal readings.</summary>
internal static class Draws
{
    public static double[] Normal(int seed, int count, double mean = 0, double deviation = 1)
    {
        Random random = new(seed);
        double[] drawn = new double[count];
        for (int i = 0; i < count; i++)
        {
            drawn[i] = mean + (deviation * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()));
        }

        return drawn;
    }
}

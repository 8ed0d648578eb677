using System.Globalization;

namespace ClearView.Quality.Tests.Reference;

/// <summary>Agreement of two numbers.</summary>
internal static class Close
{
    /// <summary>Asks for a relative difference at most <paramref name="relative"/>, or an absolute one at most <paramref name="absolute"/>.</summary>
    public static void Assert(double expected, double actual, double relative, double absolute = 0, string what = "")
    {
        double difference = Math.Abs(expected - actual);
        Xunit.Assert.True(
            expected == actual || difference <= relative * Math.Abs(expected) || difference <= absolute,
            string.Create(CultureInfo.InvariantCulture, $"{what} expected {expected:R}, was {actual:R}: off by {difference:E2}, {difference / Math.Abs(expected):E2} of it."));
    }

    /// <summary>Asks for it element by element.</summary>
    public static void AssertAll(double[] expected, double[] actual, double relative, double absolute = 0, string what = "")
    {
        Xunit.Assert.Equal(expected.Length, actual.Length);
        for (int i = 0; i < expected.Length; i++)
        {
            Assert(expected[i], actual[i], relative, absolute, $"{what}[{i}]");
        }
    }
}

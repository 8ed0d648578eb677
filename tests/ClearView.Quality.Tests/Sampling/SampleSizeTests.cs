using ClearView.Quality.Distributions;
using ClearView.Quality.Sampling;
using ClearView.Quality.Tests.Reference;

namespace ClearView.Quality.Tests.Sampling;

public sealed class SampleSizeTests
{
    // z = 1.95996 (tables of the normal distribution): (1.95996 · 4)² = 61.46, by hand.
    [Fact]
    public void ForMeanKnownSpread_IsTheFormula() => Assert.Equal(62, SampleSize.ForMeanKnownSpread(2, 0.5));

    // The definition itself, on both sides: at n the half-width fits, at n − 1 it does not.
    [Theory]
    [InlineData(2, 0.5, 0.95)]
    [InlineData(0.1, 0.3, 0.99)]
    [InlineData(1, 0.05, 0.9)]
    public void ForMean_IsTheLeastThatFits(double deviation, double margin, double confidence)
    {
        int n = SampleSize.ForMean(deviation, margin, confidence);
        double[] t = ReferenceR.Ask("reference_r.R", "student_quantile", [(1 - confidence) / 2], [n - 1.0, Math.Max(1, n - 2.0)]);

        Assert.True(t[0] * deviation / Math.Sqrt(n) <= margin);
        Assert.True(n == 2 || t[1] * deviation / Math.Sqrt(n - 1) > margin);
        Assert.True(n >= SampleSize.ForMeanKnownSpread(deviation, margin, confidence));
    }

    [Theory]
    [InlineData(5, 1.2)]
    [InlineData(17, 1)]
    [InlineData(64, 0.5)]
    public void PowerToShowDifference_AgreesWithR(int n, double effect) =>
        Close.Assert(ReferenceR.Ask("reference_r.R", "power_t", [n], [effect], [1])[0], SampleSize.PowerToShowDifference(n, effect, 0.05), 1e-9);

    // 17 and 64 per group for one and a half standard deviation at 80 % are the figures of Cohen's tables (1988), from memory.
    [Theory]
    [InlineData(1, 0.8, 17)]
    [InlineData(0.5, 0.8, 64)]
    [InlineData(0.2, 0.9, 527)]
    public void ToShowDifference_AgreesWithTablesAndR(double effect, double power, int printed)
    {
        int n = SampleSize.ToShowDifference(1, effect, power);

        Assert.Equal(printed, n);
        Assert.Equal(ReferenceR.Ask("reference_r.R", "n_t", [effect], [1], [power])[0], n);
    }

    [Fact]
    public void ToShowDifferences_AgreesWithR()
    {
        double[] means = [2.3, 2.6, 2.4, 2.9];

        Assert.Equal(ReferenceR.Ask("reference_r.R", "n_anova", means, [0.5], [0.8])[0], SampleSize.ToShowDifferences(0.5, means));
    }

    // Means that lie far apart against the spread show with any specimens at all: two per lot, the least that have a spread.
    [Theory]
    [InlineData(1e-4)]
    [InlineData(1e-9)]
    [InlineData(1e-15)]
    public void ToShowDifferences_FarApart_TakesTwoPerLot(double deviation) => Assert.Equal(2, SampleSize.ToShowDifferences(deviation, [2, 90, 91]));

    // 50,000 differences and pooled variances, seeded: the power used is a lower bound and close where it is high.
    [Fact]
    public void PowerToShowEquivalence_IsWhatDrawsGive()
    {
        const int N = 20;
        var random = new Random(20251);
        double critical = TestTail.StudentUpperQuantile(0.05, (2 * N) - 2);
        double error = Math.Sqrt(2.0 / N);
        const int Draws = 50_000;
        int shown = 0;
        for (int i = 0; i < Draws; i++)
        {
            double difference = 0.2 + (error * NormalTail.UpperQuantile(1 - (random.NextDouble() * (1 - 1e-12)) - 5e-13));
            double squares = 0;
            for (int j = 0; j < (2 * N) - 2; j++)
            {
                squares += Math.Pow(MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1), 2);
            }

            double estimated = error * Math.Sqrt(squares / ((2 * N) - 2));
            shown += Math.Abs(difference) + (critical * estimated) < 1.1 ? 1 : 0;
        }

        Assert.Equal(shown / (double)Draws, SampleSize.PowerToShowEquivalence(N, 1, 0.2, 1.1, 0.05), 0.008);
    }

    [Fact]
    public void Arguments_OutsideTheirRange_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SampleSize.ForMean(0, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => SampleSize.ForMean(1, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => SampleSize.ForMean(1, 1, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => SampleSize.ForMeanKnownSpread(1, 1e-6));
        Assert.Throws<ArgumentOutOfRangeException>(() => SampleSize.ToShowEquivalence(1, 0.5, 0.5));
    }
}

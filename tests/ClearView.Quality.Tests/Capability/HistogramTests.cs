using ClearView.Quality.Capability;
using ClearView.Quality.Tests.ControlCharts;
using ClearView.Quality.Tests.Reference;

namespace ClearView.Quality.Tests.Capability;

public sealed class HistogramTests
{
    // Freedman and Diaconis (1981) by hand: quartiles of 0, 1, … 1000 are 250 and 750, so that the width is 1000/1001^(1/3) = 99.97.
    [Fact]
    public void Of_EvenReadings_ByHand()
    {
        Histogram histogram = Histogram.Of([.. Enumerable.Range(0, 1001).Select(i => (double)i)]);

        Assert.Equal(11, histogram.Counts.Length);
        Assert.Equal((0.0, 1000.0), (histogram.EdgeOf(0), histogram.EdgeOf(11)));
        Assert.All(histogram.Counts, count => Assert.Equal(91, count));
        Assert.Equal(1001, histogram.Counts.Sum());
    }

    // The share of a normal distribution in each bin, by R.
    [Fact]
    public void Expected_Normal_AgreesWithR()
    {
        double[] readings = Draws.Normal(61, 500, 10, 2);
        CapabilityResult result = ProcessCapability.Of(
            readings, new CapabilityLimits(0, 20), new CapabilityOptions { Model = CapabilityModel.Normal, EvenIfUnstable = true });

        Histogram histogram = Histogram.Of(readings);

        double[] z = [.. Enumerable.Range(0, histogram.Counts.Length + 1).Select(edge => (histogram.EdgeOf(edge) - result.Mean) / result.OverallStandardDeviation)];
        double[] below = [.. z.Select(ReferenceNormal)];
        Close.AssertAll([.. below.Skip(1).Zip(below, (next, last) => 500 * (next - last))], [.. histogram.Expected(result)], 1e-9, 1e-9);

        // R knows Student's t; with a million degrees of freedom and more it is the normal distribution.
        static double ReferenceNormal(double value) => ReferenceR.Ask("reference_r.R", "pt", [value], [1e12], [0])[0];
    }

    [Fact]
    public void Of_CoarseReadings_StaysWithinItsBins()
    {
        double[] coarse = [.. Enumerable.Range(0, 400).Select(i => i % 10 == 0 ? 2.0 : i % 20 == 1 ? 3.0 : 1.0)];
        double[] oneFarOut = [.. Draws.Normal(62, 1000), 1e6];

        // By hand, Scott (1979): of 340 ones, 40 twos and 20 threes s = √(104/399), width = 3.49 s/∛400 = 0.242, and 2/0.242 is 8.3.
        Assert.Equal(9, Histogram.Of(coarse).Counts.Length);
        Assert.Equal(400, Histogram.Of(coarse).Counts.Sum());
        Assert.Equal(Histogram.MostBins, Histogram.Of(oneFarOut).Counts.Length);
        Assert.Equal(1, Histogram.Of(oneFarOut).Counts[^1]);
        Assert.Equal(Histogram.FewestBins, Histogram.Of([1, 2]).Counts.Length);
    }

    [Fact]
    public void Of_NoneOrEqualReadings()
    {
        Assert.Empty(Histogram.Of([]).Counts);
        Assert.Equal(3, Assert.Single(Histogram.Of([2, 2, 2]).Counts));
        Assert.Equal((1.5, 2.5), (Histogram.Of([2, 2]).From, Histogram.Of([2, 2]).To));
        Assert.Throws<ArgumentException>(() => Histogram.Of([1, double.NaN]));
    }

    [Fact]
    public void Expected_WithoutAModel_IsEmpty()
    {
        double[] readings = Draws.Normal(63, 9);

        Assert.Empty(Histogram.Of(readings).Expected(ProcessCapability.Of(readings, new CapabilityLimits(0, 20))));
    }
}

using ClearView.Quality.ControlCharts;
using ClearView.Quality.Tests.Reference;

namespace ClearView.Quality.Tests.ControlCharts;

public sealed class ChartFactorsTests
{
    // ISO 7870-2, table of factors, and NIST/SEMATECH e-Handbook 6.3.2.1, from memory: n, d2, d3, c4, A2, A3, D3, D4, B3, B4.
    [Theory]
    [InlineData(2, 1.128, 0.853, 0.7979, 1.880, 2.659, 0, 3.267, 0, 3.267)]
    [InlineData(3, 1.693, 0.888, 0.8862, 1.023, 1.954, 0, 2.574, 0, 2.568)]
    [InlineData(4, 2.059, 0.880, 0.9213, 0.729, 1.628, 0, 2.282, 0, 2.266)]
    [InlineData(5, 2.326, 0.864, 0.9400, 0.577, 1.427, 0, 2.114, 0, 2.089)]
    [InlineData(7, 2.704, 0.833, 0.9594, 0.419, 1.182, 0.076, 1.924, 0.118, 1.882)]
    [InlineData(10, 3.078, 0.797, 0.9727, 0.308, 0.975, 0.223, 1.777, 0.284, 1.716)]
    [InlineData(15, 3.472, 0.756, 0.9823, 0.223, 0.789, 0.347, 1.653, 0.428, 1.572)]
    [InlineData(25, 3.931, 0.708, 0.9896, 0.153, 0.606, 0.459, 1.541, 0.565, 1.435)]
    public void Of_PrintedTable(
        int n, double d2, double d3, double c4, double a2, double a3, double rangeLower, double rangeUpper, double deviationLower, double deviationUpper)
    {
        ChartFactors factors = ChartFactors.Of(n);

        // Three printed decimals; D and B were printed from rounded d2, d3 and c4, which shows in their last place.
        Assert.Equal(d2, factors.MeanOfRange, 0.0006);
        Assert.Equal(d3, factors.DeviationOfRange, 0.0006);
        Assert.Equal(c4, factors.MeanOfDeviation, 0.00006);
        Assert.Equal(a2, factors.A2, 0.0011);
        Assert.Equal(a3, factors.A3, 0.0011);
        Assert.Equal(rangeLower, factors.RangeLowerFactor, 0.0011);
        Assert.Equal(rangeUpper, factors.RangeUpperFactor, 0.0011);
        Assert.Equal(deviationLower, factors.DeviationLowerFactor, 0.0011);
        Assert.Equal(deviationUpper, factors.DeviationUpperFactor, 0.0011);
    }

    // R integrates its own distribution of the range (ptukey), good to about 1e-8 itself.
    [Fact]
    public void Of_EverySize_AgreesWithR()
    {
        int[] sizes = [.. Enumerable.Range(2, 24)];
        double[][] range = ReferenceR.AskMany("reference_control.R", [.. sizes.Select(n => ("range_factors", new double[][] { [n] }))]);
        double[][] c4 = ReferenceR.AskMany("reference_control.R", [.. sizes.Select(n => ("c4", new double[][] { [n] }))]);

        foreach ((int place, int n) in sizes.Index())
        {
            Assert.Equal(range[place][0], ChartFactors.Of(n).MeanOfRange, 1e-7);
            Assert.Equal(range[place][1], ChartFactors.Of(n).DeviationOfRange, 1e-6);
            Assert.Equal(c4[place][0], ChartFactors.Of(n).MeanOfDeviation, 1e-8);
        }
    }

    // Closed forms: d2(2) = 2/√π, d2(3) = 3/√π, d3(2) = √(2 − 4/π), c4(2) = √(2/π).
    [Fact]
    public void Of_SmallSizes_ClosedForms()
    {
        Assert.Equal(2 / Math.Sqrt(Math.PI), ChartFactors.Of(2).MeanOfRange, 1e-12);
        Assert.Equal(3 / Math.Sqrt(Math.PI), ChartFactors.Of(3).MeanOfRange, 1e-12);
        Assert.Equal(Math.Sqrt(2 - (4 / Math.PI)), ChartFactors.Of(2).DeviationOfRange, 1e-11);
        Assert.Equal(Math.Sqrt(2 / Math.PI), ChartFactors.C4(2), 1e-13);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(26)]
    public void Of_SizeOutsideItsRange_IsRefused(int size) => Assert.Throws<ArgumentOutOfRangeException>(() => ChartFactors.Of(size));
}

using ClearView.Quality.Descriptive;
using ClearView.Quality.Tests.Reference;

namespace ClearView.Quality.Tests.Descriptive;

public sealed class DescriptiveStatisticsTests
{
    // NIST StRD, certified means and standard deviations. The last sets lose digits where they are written as doubles: 10000000.1
    // is stored to 9e-10, which against 0.1 leaves 8 digits; no arithmetic brings them back.
    public static TheoryData<string, double[], double, double, double> Certified() => new()
    {
        { "Mavro", NistUnivariate.Mavro, 2.00185600000000, 0.000429123454003053, 1e-12 },
        { "Michelso", NistUnivariate.Michelso, 299.852400000000, 0.0790105478190518, 1e-12 },
        { "Lottery", NistUnivariate.Lottery, 518.958715596330, 291.699727470969, 1e-14 },
        { "NumAcc1", NistUnivariate.NumAcc1, 10000002, 1, 0 },
        { "NumAcc2", NistUnivariate.Pairs(1.1, 1.2, 1.3), 1.2, 0.1, 1e-14 },
        { "NumAcc3", NistUnivariate.Pairs(1000000.1, 1000000.2, 1000000.3), 1000000.2, 0.1, 1.2e-9 },
        { "NumAcc4", NistUnivariate.Pairs(10000000.1, 10000000.2, 10000000.3), 10000000.2, 0.1, 1.2e-8 },
    };

    [Theory]
    [MemberData(nameof(Certified))]
    public void Of_ReferenceSet_GivesTheCertifiedDigits(string name, double[] values, double mean, double deviation, double relative)
    {
        var statistics = DescriptiveStatistics.Of(values);

        Close.Assert(mean, statistics.Mean, 1e-14, 0, name);
        Close.Assert(deviation, statistics.StandardDeviation!.Value, relative, 0, name);
    }

    // What the doubles of NumAcc4 say exactly: decimal arithmetic of 28 digits.
    [Fact]
    public void Of_LeadingDigitsInCommon_IsExactForTheDoublesGiven()
    {
        double[] values = NistUnivariate.Pairs(10000000.1, 10000000.2, 10000000.3);
        // Differences of such doubles are doubles: exact in decimal too.
        decimal[] deviations = [.. values.Select(value => (decimal)((value - 10000000) * 1073741824) / 1073741824m)];
        decimal mean = deviations.Sum() / deviations.Length;
        double expected = Math.Sqrt((double)(deviations.Sum(one => (one - mean) * (one - mean)) / (deviations.Length - 1)));

        Close.Assert(expected, DescriptiveStatistics.Of(values).StandardDeviation!.Value, 1e-14);
    }

    [Fact]
    public void Of_Sample_AgreesWithR()
    {
        double[] values = [2.31, 2.44, 2.02, 2.6, 2.39, 2.18, 2.75];

        var statistics = DescriptiveStatistics.Of(values);

        Close.AssertAll(
            ReferenceR.Ask("reference_r.R", "describe", values),
            [statistics.Mean, statistics.StandardDeviation!.Value, statistics.MeanInterval!.Value.Lower, statistics.MeanInterval.Value.Upper],
            1e-12);
        Close.AssertAll(
            ReferenceR.Ask("reference_r.R", "quantile", values, [0.25, 0.5, 0.75]),
            [statistics.LowerQuartile, statistics.Median, statistics.UpperQuartile],
            1e-14);
    }

    // By hand: 1, 2, 3, 10 have mean 4 and central moments m2 = 12.5, m3 = 45, m4 = 348.5; chi-squared with 3 degrees of
    // freedom lies between 0.2158 and 9.3484 (tables of chi-squared), so that s is known to √(50/9.3484) … √(50/0.2158).
    [Fact]
    public void Of_Shape_IsTheMomentRatios()
    {
        var statistics = DescriptiveStatistics.Of([1, 2, 3, 10]);

        Assert.Equal(45 / Math.Pow(12.5, 1.5), statistics.Skewness!.Value, 1e-14);
        Assert.Equal((348.5 / 156.25) - 3, statistics.ExcessKurtosis!.Value, 1e-14);
        Assert.Equal(Math.Sqrt(50 / 9.3484), statistics.StandardDeviationInterval!.Value.Lower, 1e-4);
        Assert.Equal(Math.Sqrt(50 / 0.2158), statistics.StandardDeviationInterval!.Value.Upper, 1e-2);
    }

    [Fact]
    public void Of_OneValue_HasNoSpread()
    {
        var statistics = DescriptiveStatistics.Of([3.5]);

        Assert.Equal(3.5, statistics.Mean);
        Assert.Null(statistics.StandardDeviation);
        Assert.Null(statistics.MeanInterval);
        Assert.Null(statistics.Skewness);
    }

    [Fact]
    public void Of_IdenticalValues_SpreadByExactlyNothing()
    {
        var statistics = DescriptiveStatistics.Of([0.1, 0.1, 0.1]);

        Assert.Equal(0, statistics.StandardDeviation);
        Assert.Equal(new Interval(statistics.Mean, statistics.Mean), statistics.MeanInterval);
        Assert.Null(statistics.ExcessKurtosis);
    }

    [Fact]
    public void Of_NothingOrNotANumber_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => DescriptiveStatistics.Of([]));
        Assert.Throws<ArgumentException>(() => DescriptiveStatistics.Of([1, double.NaN]));
        Assert.Throws<ArgumentOutOfRangeException>(() => DescriptiveStatistics.Of([1, 2], 1));
    }
}

using System.Globalization;

using ClearView.Quality.Distributions;
using ClearView.Quality.Tests.Reference;

namespace ClearView.Quality.Tests.Distributions;

public sealed class NoncentralTTests
{
    // Both tails, noncentralities beyond what R computes, tails down to 1e-40: mpmath, 30 digits.
    [Fact]
    public void Tails_AgreeWithHighPrecisionToNineDigits()
    {
        (double Df, double Ncp, double T)[] cases =
        [
            (1, 0, 1), (1, 0.5, 1.2), (1, 2, -30), (2, -3, -1), (2.5, 1, 4), (5, 3, 12), (5, 3, -1), (5, 0, 9), (9, 4.05, 6.3),
            (9, 4.05, 30), (19, 7.356, 8.3), (19, 7.356, 2), (30, 50, 62), (49, 100, 70), (60, 10, 0), (200, 1.5, -6),
            (1000, 100, 98), (1000, -100, -120), (20000, 300, 305), (3, 600, 900),
        ];

        (double Lower, double Upper)[] reference = ReferencePython.Ask(
            [.. cases.Select(one => string.Create(CultureInfo.InvariantCulture, $"t {one.Df} {one.Ncp} {one.T}"))]);

        for (int i = 0; i < cases.Length; i++)
        {
            var distribution = new NoncentralT(cases[i].Df, cases[i].Ncp);
            Close.Assert(reference[i].Lower, distribution.LowerTail(cases[i].T), 1e-9, 0, $"lower {cases[i]}");
            Close.Assert(reference[i].Upper, distribution.UpperTail(cases[i].T), 1e-9, 0, $"upper {cases[i]}");
        }
    }

    // R's pt is asked where it is exact: lower tails that are not small (it states 1e-12 absolute), |ncp| below 37.6.
    [Fact]
    public void LowerTail_OverAGrid_AgreesWithR()
    {
        List<(double T, double Df, double Ncp)> grid = [];
        foreach (double df in new[] { 1, 2, 3, 5, 8.5, 15, 40, 120, 1000 })
        {
            foreach (double ncp in new[] { 0, 0.3, 1, 2.5, 5, 12, 30 })
            {
                foreach (double offset in new[] { -2.5, -1, 0, 0.7, 2, 6 })
                {
                    grid.Add((ncp + offset, df, ncp));
                }
            }
        }

        double[] reference = ReferenceR.Ask(
            "reference_r.R", "pt", [.. grid.Select(one => one.T)], [.. grid.Select(one => one.Df)], [.. grid.Select(one => one.Ncp)]);

        Close.AssertAll(reference, [.. grid.Select(one => new NoncentralT(one.Df, one.Ncp).LowerTail(one.T))], 1e-9, 1e-10, "pt");
    }

    // R finds qt(ncp) by bisection to about 1e-11 of the value.
    [Fact]
    public void Quantile_AgreesWithR()
    {
        (double P, double Df, double Ncp)[] cases =
        [
            (0.05, 4, 1), (0.95, 4, 1), (0.95, 9, 4.0525), (0.99, 19, 7.3563), (0.1, 49, 11.6), (0.5, 2, 3), (0.975, 99, 20), (0.2, 1, -2),
        ];

        double[] reference = ReferenceR.Ask(
            "reference_r.R", "qt", [.. cases.Select(one => one.P)], [.. cases.Select(one => one.Df)], [.. cases.Select(one => one.Ncp)]);

        Close.AssertAll(reference, [.. cases.Select(one => new NoncentralT(one.Df, one.Ncp).Quantile(one.P))], 1e-8, 1e-8, "qt");
    }

    // One-sided tolerance factors for normal samples, ISO 16269-6 and NIST/SEMATECH e-Handbook 7.2.6.3; from memory.
    [Theory]
    [InlineData(10, 0.95, 0.95, 2.911)]
    [InlineData(10, 0.90, 0.95, 2.355)]
    [InlineData(20, 0.95, 0.95, 2.396)]
    [InlineData(50, 0.95, 0.95, 2.065)]
    [InlineData(100, 0.95, 0.95, 1.927)]
    [InlineData(43, 0.90, 0.99, 1.8740)]
    public void Quantile_GivesTheToleranceFactorsOfTables(int n, double share, double confidence, double factor)
    {
        double z = NormalTail.UpperQuantile(1 - share);

        double computed = new NoncentralT(n - 1, z * Math.Sqrt(n)).Quantile(confidence) / Math.Sqrt(n);

        Assert.Equal(factor, computed, 0.00051);
    }

    [Theory]
    [InlineData(1, 0)]
    [InlineData(7, 2.5)]
    [InlineData(400, -35)]
    [InlineData(3, 5000)]
    [InlineData(double.PositiveInfinity, 1.5)]
    public void Quantiles_GiveTheirTailsBack(double df, double ncp)
    {
        var distribution = new NoncentralT(df, ncp);
        foreach (double p in new[] { 1e-12, 1e-4, 0.05, 0.5, 0.9, 0.999 })
        {
            Close.Assert(p, distribution.LowerTail(distribution.Quantile(p)), 1e-9);
            Close.Assert(p, distribution.UpperTail(distribution.UpperQuantile(p)), 1e-9);
        }
    }

    [Theory]
    [InlineData(4, 1.3, -0.4)]
    [InlineData(60, 20, 21)]
    public void Tails_AreMirrored(double df, double ncp, double t) =>
        Close.Assert(new NoncentralT(df, ncp).UpperTail(t), new NoncentralT(df, -ncp).LowerTail(-t), 1e-14);

    [Theory]
    [InlineData(0.99, 0)]
    [InlineData(double.NaN, 0)]
    [InlineData(5, double.NaN)]
    [InlineData(5, 10001)]
    public void Parameters_OutsideTheirRange_AreRefused(double df, double ncp) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new NoncentralT(df, ncp));

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void Quantile_OfWhatIsNoProbability_IsRefused(double probability) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new NoncentralT(5, 1).Quantile(probability));
}

using ClearView.Quality.Lots;
using ClearView.Quality.Tests.Reference;

namespace ClearView.Quality.Tests.Lots;

/// <summary>Analysis of variance on the NIST Statistical Reference Datasets, with their certified values.</summary>
public sealed class AnovaReferenceSetTests
{
    [Fact]
    public void SiRstv() => Check(NistAnova.SiRstv, 5.11462616000000E-02, 2.16636560000000E-01, 1.18046237440255E+00, 1e-12);

    // The values are stored to 7e-15, which against deviations of 1e-5 leaves about nine digits.
    [Fact]
    public void AtmWtAg() => Check(NistAnova.AtmWtAg, 3.63834187500000E-09, 1.04951729166667E-08, 1.59467335677930E+01, 1e-8);

    // Certified: 0.08 n, 0.09 (n − 1) and n as sums of squares and F. What is left is what the doubles lose: 10⁶ + 0.3 is stored
    // to 6e-11, 10¹² + 0.3 to 5e-5 (the hard sets), against deviations of 0.1.
    [Theory]
    [InlineData(1, 21, 1e-13)]
    [InlineData(1, 201, 1e-13)]
    [InlineData(1, 2001, 1e-13)]
    [InlineData(1_000_000, 21, 2e-9)]
    [InlineData(1_000_000, 201, 2e-9)]
    [InlineData(1_000_000, 2001, 2e-9)]
    [InlineData(1_000_000_000_000, 21, 2e-3)]
    [InlineData(1_000_000_000_000, 201, 2e-3)]
    [InlineData(1_000_000_000_000, 2001, 2e-3)]
    public void SimonLesage(long leading, int n, double relative) =>
        Check(NistAnova.SimonLesage(leading, n), 0.08 * n, 0.09 * (n - 1), n, relative);

    // SmLs07 to SmLs09 with the leading digits in common taken off before they cost digits: all certified digits.
    [Theory]
    [InlineData(21)]
    [InlineData(201)]
    [InlineData(2001)]
    public void SimonLesage_WithoutTheLeadingDigits(int n) =>
        Check(NistAnova.SimonLesage(1_000_000_000_000, n, withoutLeading: true), 0.08 * n, 0.09 * (n - 1), n, 1e-13);

    // SmLs07 to SmLs09 as doubles: the arithmetic itself loses nothing. Differences from 10¹² are exact.
    [Theory]
    [InlineData(21)]
    [InlineData(2001)]
    public void SimonLesage_AsDoubles_IsExactForTheDoublesGiven(int n)
    {
        Lot[] given = NistAnova.SimonLesage(1_000_000_000_000, n);
        decimal[][] exact = [.. given.Select(lot => lot.Values.Select(value => (decimal)(value - 1e12)).ToArray())];
        decimal grand = exact.Sum(lot => lot.Sum()) / exact.Sum(lot => lot.Length);
        decimal between = exact.Sum(lot => lot.Length * ((lot.Sum() / lot.Length) - grand) * ((lot.Sum() / lot.Length) - grand));
        decimal within = exact.Sum(lot => lot.Sum(value => (value - (lot.Sum() / lot.Length)) * (value - (lot.Sum() / lot.Length))));

        Check(given, (double)between, (double)within, (double)(between / 8 / (within / (9 * (n - 1)))), 1e-13);
    }

    private static void Check(Lot[] lots, double between, double within, double f, double relative)
    {
        AnovaTable table = OneWay.Classical(lots);

        Close.Assert(between, table.BetweenSquares, relative, 0, "between");
        Close.Assert(within, table.WithinSquares, relative, 0, "within");
        Close.Assert(f, table.Test.Value!.F, relative, 0, "F");
    }
}

using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Tests.Uncertainty;

/// <summary>JCGM 100, 7.2.6: uncertainties to two significant digits at most, estimates to the same place.</summary>
public class UncertaintyRoundingTests
{
    // 7.2.6: y = 10.057 62 Ω with uc = 27 mΩ becomes 10.058 Ω. 7.2.2: m = 100.021 47 g, uc = 0.35 mg. 7.2.4: U = 0.79 mg.
    // H.1: l = 50.000 838 mm, uc = 32 nm. All from memory.
    [Theory]
    [InlineData(10.057_62, 0.027, "10.058 ± 0.027")]
    [InlineData(100.021_47, 0.000_35, "100.02147 ± 0.00035")]
    [InlineData(100.021_47, 0.000_79, "100.02147 ± 0.00079")]
    [InlineData(50.000_838, 0.000_032, "50.000838 ± 0.000032")]
    public void Format_OfTheGuidesExamples_IsReproduced(double value, double uncertainty, string expected) =>
        Assert.Equal(expected, UncertaintyRounding.Format(value, uncertainty));

    // 7.2.6: 28.05 kHz becomes 28 kHz: two digits, and no more decimals than they need.
    [Theory]
    [InlineData(28.05, 0)]
    [InlineData(9.94, 1)]
    [InlineData(9.96, 0)]
    [InlineData(0.0996, 2)]
    [InlineData(0.0994, 3)]
    [InlineData(1.0, 1)]
    [InlineData(100, 0)]
    [InlineData(12_345, 0)]
    [InlineData(1e-30, 12)]
    public void Decimals_KeepTwoSignificantDigits(double uncertainty, int expected) =>
        Assert.Equal(expected, UncertaintyRounding.Decimals(uncertainty));

    [Theory]
    [InlineData(-1.236, 0.12, "-1.24 ± 0.12")]
    [InlineData(0.004, 0.12, "0.00 ± 0.12")]
    [InlineData(87.5, 9.96, "88 ± 10")]
    public void Format_RoundsBothAlike(double value, double uncertainty, string expected) =>
        Assert.Equal(expected, UncertaintyRounding.Format(value, uncertainty));

    [Theory]
    [InlineData(0)]
    [InlineData(-0.1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Decimals_WithoutAnUncertainty_AreRefused(double uncertainty) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => UncertaintyRounding.Decimals(uncertainty));
}

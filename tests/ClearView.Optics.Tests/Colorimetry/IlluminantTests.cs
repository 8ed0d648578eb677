using ClearView.Optics.Colorimetry;
using ClearView.Optics.Spectra;
using ClearView.Optics.Tests.Reference;

namespace ClearView.Optics.Tests.Colorimetry;

public sealed class IlluminantTests
{
    // The table of A prints six figures: rounding changes a figure by up to this share of it.
    private const double SixFigures = 5e-6;

    // CIE 15: S(λ) = 100 (560/λ)⁵ (exp(1.435e7 / (2848·560)) − 1) / (exp(1.435e7 / (2848·λ)) − 1), λ in nm.
    [Fact]
    public void A_IsThePlanckFormulaOfCie15()
    {
        Spectrum power = Illuminant.A.RelativePower;

        for (int i = 0; i < power.Grid.Count; i++)
        {
            double nm = power.Grid[i];
            double planck = 100 * Math.Pow(560 / nm, 5)
                * (Math.Exp(1.435e7 / (2848 * 560.0)) - 1) / (Math.Exp(1.435e7 / (2848 * nm)) - 1);
            Assert.Equal(1, power[i] / planck, SixFigures);
        }
    }

    // Every figure at 1 nm that colord-data prints, against Sprague's interpolation of each fifth one.
    [Fact]
    public void A_At1Nm_IsThatOfColordData()
    {
        ColordTable reference = ColordTable.Read("illuminant/CIE-A.sp");
        Spectrum power = Illuminant.A.RelativePower;

        for (int i = 0; i < power.Grid.Count; i++)
        {
            int at = Array.IndexOf(reference.WavelengthsNm, (decimal)power.Grid[i]);
            Assert.Equal(1, power[i] / (100 * (double)reference.Rows[0][at]), 2 * SixFigures);
        }
    }

    // CIE 15 and ISO 11664-2 define D65 as linear between its tabled values.
    [Fact]
    public void D65_BetweenTabledValues_IsLinear()
    {
        Spectrum power = Illuminant.D65.RelativePower;
        int at560 = power.Grid.IndexAtOrBelow(560);

        Assert.Equal(100, power[at560], 1e-12);
        Assert.Equal(((power[at560] * 3) + (power[at560 + 5] * 2)) / 5, power[at560 + 2], 1e-12);
    }

    // D65 again, this time by the daylight formula from the components: the same figures within the rounding of the table.
    [Fact]
    public void DaylightFormula_At6504K_GivesD65()
    {
        Spectrum formula = Daylight.RelativePower(6500 * 1.4388 / 1.4380, Illuminant.D65.RelativePower.Grid);

        for (int i = 0; i < formula.Grid.Count; i++)
        {
            Assert.Equal(1, formula[i] / Illuminant.D65.RelativePower[i], 5e-4);
        }
    }

    // CIE 15, table of D50, first figures from 380 nm; from memory.
    [Fact]
    public void D50_IsThatOfCie15()
    {
        Spectrum power = Illuminant.D50.RelativePower;
        double[] printed = [24.488, 29.871, 49.308, 56.513, 60.034, 57.818];

        for (int i = 0; i < printed.Length; i++)
        {
            Assert.Equal(printed[i], power[power.Grid.IndexAtOrBelow(380 + (10 * i))], 0.0006);
        }
    }

    // colord-data prints D50 to three decimals, of which the last is cut off or rounded.
    [Fact]
    public void D50_IsThatOfColordDataWithinItsDigits()
    {
        ColordTable reference = ColordTable.Read("illuminant/CIE-D50.sp");
        Spectrum power = Illuminant.D50.RelativePower;

        for (int i = 0; i < reference.WavelengthsNm.Length; i++)
        {
            // Every other figure of that package lies half-way between its neighbours: only the tens are tabled.
            if (reference.WavelengthsNm[i] % 10 == 0)
            {
                int at = power.Grid.IndexAtOrBelow((double)reference.WavelengthsNm[i]);
                Assert.Equal((double)reference.Rows[0][i], power[at] / 100, 1e-3);
            }
        }
    }

    [Theory]
    [InlineData("A")]
    [InlineData("c")]
    [InlineData("d50")]
    [InlineData("D65")]
    public void TryFind_KnownName_FindsIt(string name)
    {
        Assert.True(Illuminant.TryFind(name, out Illuminant? found));
        Assert.Equal(name, found.Name, ignoreCase: true);
    }

    [Theory]
    [InlineData("")]
    [InlineData("D6")]
    [InlineData("D65 ")]
    [InlineData(null)]
    public void TryFind_UnknownName_FindsNothing(string? name) => Assert.False(Illuminant.TryFind(name, out _));
}

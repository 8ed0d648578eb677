using ClearView.Optics.Colorimetry;
using ClearView.Optics.Tests.Reference;

namespace ClearView.Optics.Tests.Colorimetry;

/// <summary>CIE94 and CMC(l:c), which are weighted by the reference.</summary>
public sealed class WeightedDifferenceTests
{
    private static readonly DifferenceFactors[] Factors =
    [
        DifferenceFactors.Default, new(2, 1, 1, 1, 1), new(1, 1.5, 0.5, 1.4, 0.7), new(0.3, 4, 10, 10, 0.1),
    ];

    // Colours drawn over the whole space and close to each other, dark ones below L* = 16 and both branches of the hue weight.
    [Theory]
    [InlineData("reference_colormath.py")]
    [InlineData("reference_skimage.py")]
    public void Cie94AndCmc_AgreeWithALibrary(string program)
    {
        var random = new Random(94);
        (CieLab One, CieLab Other, DifferenceFactors Factors)[] cases =
        [
            .. PublishedCiede2000Pairs.All.Select(pair => (pair.One, pair.Other, Factors[0])),
            .. Enumerable.Range(0, 400).Select(i =>
            {
                CieLab one = Draw(random);
                CieLab other = i % 2 == 0 ? Draw(random) : new(one.L + random.NextDouble(), one.A - random.NextDouble(), one.B + random.NextDouble());
                return (one, other, Factors[i % Factors.Length]);
            }),
        ];

        double[][] expected = ReferenceProgram.Ask(program, "weighted", cases.Select(c => new
        {
            one = new[] { c.One.L, c.One.A, c.One.B },
            other = new[] { c.Other.L, c.Other.A, c.Other.B },
            factors = new[] { c.Factors.Lightness, c.Factors.Chroma, c.Factors.Hue, c.Factors.CmcLightness, c.Factors.CmcChroma },
        }));

        foreach (((CieLab one, CieLab other, DifferenceFactors factors), double[] differences) in cases.Zip(expected))
        {
            // Both libraries form ΔH² as a difference of squares, which cancels where hues are close.
            Assert.Equal(differences[0], ColourDifference.Cie94(one, other, Cie94Factors.From(factors)), 1e-7);
            Assert.Equal(differences[1], ColourDifference.Cmc(one, other, factors.CmcLightness, factors.CmcChroma), 1e-7);
        }

        Assert.Contains(cases, c => c.One.L < 16);
        Assert.Contains(cases, c => c.One.HueDegrees is >= 164 and <= 345);
    }

    // By hand (CIE 116): chroma of the reference 50, so that SC = 1 + 0.045 · 50 = 3.25 and SH = 1 + 0.015 · 50 = 1.75. A change
    // along the hue direction of a reference at (50, 0, 0) → (50 cos 90°, 50 sin 90°): ΔH = 2 · 50 · sin 45°.
    [Theory]
    [InlineData(60, 50, 0, 10)]
    [InlineData(50, 56.5, 0, 2)]
    [InlineData(50, 0, 50, 70.71067811865476 / 1.75)]
    public void Cie94_ByHand(double l, double a, double b, double expected) =>
        Assert.Equal(expected, ColourDifference.Cie94(new CieLab(50, 50, 0), new CieLab(l, a, b), Cie94Factors.ReferenceConditions), 1e-12);

    // By hand (ISO 105-J03): a neutral reference has SC = SH = 0.638 and no hue, so that (l·SL) alone and the chroma count.
    [Fact]
    public void Cmc_NeutralReference_ByHand()
    {
        double sl = 0.040975 * 50 / (1 + (0.01765 * 50));

        Assert.Equal(2 / (2 * sl), ColourDifference.Cmc(new CieLab(50, 0, 0), new CieLab(52, 0, 0), 2, 1), 1e-12);
        Assert.Equal(5 / 0.638, ColourDifference.Cmc(new CieLab(50, 0, 0), new CieLab(50, 3, -4), 2, 1), 1e-12);
        Assert.Equal(1 / 0.511, ColourDifference.Cmc(new CieLab(15, 0, 0), new CieLab(16, 0, 0), 1, 1), 1e-12);
    }

    [Fact]
    public void Differences_OfAColourWithItself_AreZero()
    {
        var colour = new CieLab(95, -0.4, 2.1);

        Assert.Equal(0, ColourDifference.Cie94(colour, colour, Cie94Factors.Textiles));
        Assert.Equal(0, ColourDifference.Cmc(colour, colour, 2, 1));
    }

    // What "depends on which colour is the reference" means.
    [Fact]
    public void Differences_DependOnTheReference()
    {
        var pale = new CieLab(95, 0, 2);
        var strong = new CieLab(90, 5, 40);

        Assert.True(ColourDifference.Cie94(pale, strong, Cie94Factors.ReferenceConditions) > 2 * ColourDifference.Cie94(strong, pale, Cie94Factors.ReferenceConditions));
        Assert.True(ColourDifference.Cmc(pale, strong, 2, 1) > 2 * ColourDifference.Cmc(strong, pale, 2, 1));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Factors_NotAboveZero_AreRefused(double factor)
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new DifferenceFactors(factor, 1, 1, 2, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DifferenceFactors(1, factor, 1, 2, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DifferenceFactors(1, 1, factor, 2, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DifferenceFactors(1, 1, 1, factor, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new DifferenceFactors(1, 1, 1, 2, factor));
    }

    private static CieLab Draw(Random random) =>
        new(random.NextDouble() * 100, (random.NextDouble() * 200) - 100, (random.NextDouble() * 200) - 100);
}

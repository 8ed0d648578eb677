using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Tests.Reference;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Tests.Colorimetry;

/// <summary>The special metamerism index, change in illuminant, from the spectra.</summary>
public sealed class MetamerismTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Between(380, 780, 10);

    // tools/reference_tristimulus.py, a second program written from the standards: from two spectra to the index, tables of
    // colord-data, numpy alone.
    [Theory]
    [InlineData("D65", "A", "10")]
    [InlineData("D65", "A", "2")]
    [InlineData("C", "A", "2")]
    [InlineData("A", "D65", "10")]
    [InlineData("D65", "C", "2")]
    public void Index_AgreesWithTheSecondProgram(string match, string test, string observer)
    {
        double[] wavelengths = Grid.WavelengthsNm.ToArray();
        double[] reference = [.. wavelengths.Select(nm => 0.9 - (0.3 * Math.Exp(-(nm - 380) / 60)))];
        double[] specimen = [.. wavelengths.Select(nm => 0.88 - (0.25 * Math.Exp(-Math.Pow((nm - 430) / 40, 2))) - (0.05 * Math.Exp(-Math.Pow((nm - 600) / 25, 2))))];

        double[] expected = Assert.Single(ReferenceProgram.Ask(
            "reference_tristimulus.py",
            "metamerism",
            [new { wavelengths, reference, specimen, observer, illuminant = match, test_illuminant = test }]));
        MeasuredValue index = Index(specimen, Light(match, observer), Lab(expected[1..4]), Light(test, observer), Lab(expected[4..7]));

        Assert.InRange(expected[0], 0.1, 10);
        Assert.Equal(expected[0], index.Value, 1e-6);
        Assert.Equal($"CIE 15, ΔE*ab, test light {test}/{observer}°", index.Basis.Standard);
        Assert.Equal($"{match}/{observer}°", index.Basis.LightAndObserver!.ToString());
    }

    // By hand: with itself, or with a copy that is darker by one factor at all wavelengths, nothing falls apart.
    [Theory]
    [InlineData(1)]
    [InlineData(0.8)]
    public void Index_OfADimmerCopy_IsZero(double factor)
    {
        double[] reference = [.. Grid.WavelengthsNm.ToArray().Select(nm => 0.9 - (0.3 * Math.Exp(-(nm - 380) / 60)))];
        LightAndObserver match = LightAndObserver.D65Degree10;
        LightAndObserver test = Light("FL11", "10");

        MeasuredValue index = Index([.. reference.Select(t => factor * t)], match, Colour(reference, match), test, Colour(reference, test));

        Assert.Equal(0, index.Value, 1e-9);
    }

    // By hand: corrected X, Y, Z are test · reference / specimen = (22, 22, 9) against (20, 20, 10); white (100, 100, 100), every
    // ratio above the joint, so that f is the cube root.
    [Fact]
    public void SpecialIndex_ByHand()
    {
        var one = (new Tristimulus(22, 22, 9), new Tristimulus(20, 20, 10));
        var two = (new Tristimulus(20, 20, 10), new Tristimulus(20, 20, 10));
        double fy = Math.Cbrt(0.22) - Math.Cbrt(0.20);
        double fz = Math.Cbrt(0.09) - Math.Cbrt(0.10);
        double expected = Math.Sqrt(Math.Pow(116 * fy, 2) + Math.Pow(200 * (fy - fz), 2));

        Assert.Equal(expected, Metamerism.SpecialIndex(one, two, new Tristimulus(100, 100, 100)), 1e-12);
    }

    [Fact]
    public void SpecialIndex_BlackSpecimen_IsRefused() =>
        Assert.Throws<ArgumentException>(() => Metamerism.SpecialIndex(
            (new Tristimulus(20, 20, 10), new Tristimulus(20, 20, 10)), (default, default), new Tristimulus(100, 100, 100)));

    // A specimen that lets nothing through has no index, and nothing else fails for it.
    [Fact]
    public void Index_OfABlackSpecimen_IsAbsent() =>
        Assert.DoesNotContain(
            Evaluate(new double[Grid.Count], LightAndObserver.D65Degree10, new CieLab(90, 0, 0), Light("A", "10"), new CieLab(90, 0, 0)).Values,
            value => value.Measurand == Measurands.MetamerismIndex);

    [Theory]
    [InlineData("A", "2")]
    [InlineData("D65", "10")]
    public void Method_TestLightWithAnotherObserverOrTheSame_IsRefused(string illuminant, string observer) =>
        Assert.Throws<ArgumentException>(() => MethodOf(LightAndObserver.D65Degree10, default, Light(illuminant, observer), default));

    private static MeasuredValue Index(double[] specimen, LightAndObserver match, CieLab reference, LightAndObserver test, CieLab underTest) =>
        Evaluate(specimen, match, reference, test, underTest).Values.Single(value => value.Measurand == Measurands.MetamerismIndex);

    private static Evaluation Evaluate(double[] specimen, LightAndObserver match, CieLab reference, LightAndObserver test, CieLab underTest) =>
        Evaluator.Evaluate(
            new TransmittanceScans(TransmittanceSpectrum.FromFractions(Grid, specimen), null), MethodOf(match, reference, test, underTest));

    private static Method MethodOf(LightAndObserver match, CieLab reference, LightAndObserver test, CieLab underTest) =>
        new(HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, match, [])
        {
            ReferenceColour = reference,
            Metamerism = new MetamerismTest(test, underTest),
        };

    private static CieLab Colour(double[] fractions, LightAndObserver light)
    {
        WeightingTable table = WeightingTable.For(Grid, light);
        return CieLab.From(table.Weigh(TransmittanceSpectrum.FromFractions(Grid, fractions)), table.White);
    }

    private static CieLab Lab(double[] values) => new(values[0], values[1], values[2]);

    private static LightAndObserver Light(string illuminant, string observer)
    {
        Assert.True(Illuminant.TryFind(illuminant, out Illuminant? light));
        return new LightAndObserver(light, Observer.All.Single(one => one.Name == $"{observer}°"));
    }
}

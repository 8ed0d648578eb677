using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Tests.Documentation;

/// <summary>Computes the worked examples of docs/methods/colour-differences.md, which were derived by hand.</summary>
public sealed class ColourDifferenceExampleTests
{
    [Fact]
    public void Parts()
    {
        WorkedExample page = WorkedExample.Read("colour-differences.md", "difference-parts");
        (CieLab reference, CieLab specimen) = Pair(page);

        var shift = ColourShift.Between(reference, specimen);

        page.Shows("dL", shift.DeltaL);
        page.Shows("da", shift.DeltaA);
        page.Shows("db", shift.DeltaB);
        page.Shows("dC", shift.DeltaC);
        page.Shows("dH", shift.DeltaH);
        page.Shows("dE", ColourDifference.DeltaEab(reference, specimen));
        page.HasNoOtherFigures();
        Assert.Equal(["yellower", "darker", "redder"], shift.Words(1));
    }

    [Fact]
    public void Cie94()
    {
        WorkedExample page = WorkedExample.Read("colour-differences.md", "cie94");
        (CieLab reference, CieLab specimen) = Pair(page);

        page.Shows("reference_conditions", ColourDifference.Cie94(reference, specimen, Cie94Factors.ReferenceConditions));
        page.Shows("textiles", ColourDifference.Cie94(reference, specimen, Cie94Factors.Textiles));
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Cmc()
    {
        WorkedExample page = WorkedExample.Read("colour-differences.md", "cmc");
        (CieLab reference, CieLab specimen) = Pair(page);

        page.Shows("acceptability", ColourDifference.Cmc(reference, specimen, 2, 1));
        page.Shows("perceptibility", ColourDifference.Cmc(reference, specimen, 1, 1));
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Ciede2000()
    {
        WorkedExample page = WorkedExample.Read("colour-differences.md", "ciede2000");
        (CieLab reference, CieLab specimen) = Pair(page);

        page.Shows("all_1", ColourDifference.Ciede2000(reference, specimen));
        page.Shows("kL_2", ColourDifference.Ciede2000(reference, specimen, 2, 1, 1));
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Metamerism_SpecialIndex()
    {
        WorkedExample page = WorkedExample.Read("colour-differences.md", "metamerism");
        Tristimulus Of(string name) => new(page.Given($"X{name}"), page.Given($"Y{name}"), page.Given($"Z{name}"));

        page.Shows("M", Metamerism.SpecialIndex((Of("1_reference"), Of("1_test")), (Of("2_reference"), Of("2_test")), Of("w")));
        page.HasNoOtherFigures();
    }

    private static (CieLab Reference, CieLab Specimen) Pair(WorkedExample page) => (
        new CieLab(page.Given("Lr"), page.Given("ar"), page.Given("br")),
        new CieLab(page.Given("Ls"), page.Given("as"), page.Given("bs")));
}

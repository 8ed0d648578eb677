using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Tests.Evaluations;

/// <summary>The registry, and the choices of a method that its entries rest on.</summary>
public sealed class MeasurandTests
{
    private static readonly LightAndObserver Test = new(Illuminant.A, Observer.Cie1964Degree10);

    // What can be had of hazemeter readings without a diffuse reading: luminous transmittance alone.
    [Fact]
    public void Needs_OfEveryMeasurand_AreToldButForLuminousTransmittance()
    {
        Assert.Equal([Measurands.LuminousTransmittance], Measurand.All.Where(measurand => measurand.Needs.Length == 0));
        Assert.All(Measurand.All, measurand => Assert.Equal(measurand.Needs.Trim(), measurand.Needs));
    }

    [Fact]
    public void Registry_HasEachIdentifierOnceAndAWayToEachUncertainty()
    {
        Assert.Equal(Measurand.All.Length, Measurand.All.Select(measurand => measurand.Id).Distinct(StringComparer.Ordinal).Count());
        Assert.All(Measurand.All, measurand => Assert.True(measurand.Differentiable is not null ^ measurand.Spectral is not null, measurand.Id));
    }

    [Fact]
    public void IsAngle_HoldsForHueAnglesOnly() =>
        Assert.Equal([Measurands.CielabHue, Measurands.CieluvHue], Measurand.All.Where(measurand => measurand.IsAngle));

    [Fact]
    public void Methods_ThatDifferInOneChoice_AreNotEqual()
    {
        Method one = Full();

        Assert.Equal(one, Full());
        Assert.Equal(one.GetHashCode(), Full().GetHashCode());
        Assert.NotEqual(one, Full(factors: new DifferenceFactors(1, 1, 1, 1, 1)));
        Assert.NotEqual(one, Full(test: new MetamerismTest(Test, new CieLab(90, 0, 1))));
        Assert.NotEqual(one, Full(test: new MetamerismTest(new LightAndObserver(Illuminant.C, Observer.Cie1964Degree10), new CieLab(90, 0, 0))));
        Assert.NotEqual(one, Full(yellowness: YellownessKind.AstmE313));
    }

    [Fact]
    public void WithThickness_KeepsEveryOtherChoice() =>
        Assert.Equal(Full(factors: new DifferenceFactors(2, 1, 1, 1, 1)), Full(factors: new DifferenceFactors(2, 1, 1, 1, 1)).WithThickness(null));

    [Fact]
    public void Method_Iso17223UnderAPairThatItDoesNotKnow_IsRefused()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => new Method(
            HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.D65Degree2, [YellownessKind.Iso17223]));

        Assert.Contains("C/2°, D65/10°", error.Message, StringComparison.Ordinal);
    }

    private static Method Full(DifferenceFactors? factors = null, MetamerismTest? test = null, YellownessKind yellowness = YellownessKind.Iso17223) =>
        new(HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.D65Degree10, [yellowness])
        {
            ReferenceColour = new CieLab(94, 0, -1),
            DifferenceFactors = factors ?? DifferenceFactors.Default,
            Metamerism = test ?? new MetamerismTest(Test, new CieLab(90, 0, 0)),
            InitialYellownessIndex = 1,
        };
}

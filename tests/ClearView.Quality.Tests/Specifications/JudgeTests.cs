using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Quality.Specifications;

using FsCheck.Xunit;

namespace ClearView.Quality.Tests.Specifications;

public sealed class JudgeTests
{
    private static readonly Specification Film = Specify(3, new LimitDraft("haze") { Upper = 2 });

    [Fact]
    public void Of_AboveTheLimit_SaysByHowMuch()
    {
        Judgement judgement = Judge.Of(Reading(3, Haze(2.31, 0.05)), Film, DecisionRule.GuardedByExpandedUncertainty);

        Assert.Equal(Verdict.NonConformity, judgement.Verdict);
        Assert.Equal(["haze 2.31 % is 0.31 % above its upper limit 2.00 %, 3.1 times its expanded uncertainty"], judgement.Reasons);
        LimitJudgement limit = Assert.Single(judgement.Limits);
        Assert.Equal(-0.31, limit.DistanceToLimit!.Value, 1e-12);
        Assert.Equal(-3.1, limit.DistanceInExpandedUncertainties!.Value, 1e-12);
        Assert.Null(limit.ConsumersRisk);
        Assert.Equal(limit.ProbabilityOfConformity, limit.ProducersRisk);
    }

    // Guard band g = U = 0.1 (JCGM 106, 8.3.3; ISO 14253-1): both sides of both ends.
    [Theory]
    [InlineData(1.9 - 1e-9, Verdict.Conformity)]
    [InlineData(1.9, Verdict.Conformity)]
    [InlineData(1.9 + 1e-9, Verdict.NeitherProven)]
    [InlineData(2.0, Verdict.NeitherProven)]
    [InlineData(2.1, Verdict.NeitherProven)]
    [InlineData(2.1 + 1e-9, Verdict.NonConformity)]
    public void Of_GuardBand_BothSidesOfBothEnds(double haze, Verdict expected) =>
        Assert.Equal(expected, Judge.Of(Reading(3, Haze(haze, 0.05)), Film, DecisionRule.Guarded(1)).Verdict);

    [Theory]
    [InlineData(2.0, Verdict.Conformity)]
    [InlineData(2.0 + 1e-9, Verdict.NonConformity)]
    public void Of_SimpleAcceptance_TheLimitItselfConforms(double haze, Verdict expected) =>
        Assert.Equal(expected, Judge.Of(Reading(3, new MeasuredQuantity(Measurands.Haze, haze)), Film, DecisionRule.SimpleAcceptance).Verdict);

    [Theory]
    [InlineData(0.9 - 1e-9, Verdict.NonConformity)]
    [InlineData(0.9, Verdict.NeitherProven)]
    [InlineData(1.1 - 1e-9, Verdict.NeitherProven)]
    [InlineData(1.1, Verdict.Conformity)]
    public void Of_LowerLimit_BothSides(double haze, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge.Of(Reading(3, Haze(haze, 0.05)), Specify(3, new LimitDraft("haze") { Lower = 1, Upper = 9 }), DecisionRule.Guarded(1)).Verdict);

    // JCGM 106, 9.3.2: the risk of accepting is 1 − p, that of rejecting p.
    [Fact]
    public void Of_Accepted_HasTheConsumersRiskOnly()
    {
        LimitJudgement limit = Judge.Of(Reading(3, Haze(1.9, 0.05)), Film, DecisionRule.SimpleAcceptance).Limits[0];

        // Φ(−2) = 0.022750, from memory of any table.
        Assert.Equal(0.02275, limit.ConsumersRisk!.Value, 1e-6);
        Assert.Null(limit.ProducersRisk);
    }

    [Fact]
    public void Of_MissingMeasurand_IsNotDecided()
    {
        Judgement judgement = Judge.Of(Reading(3, Haze(1, 0.05)), Specify(3, new LimitDraft("cielab_b") { Upper = 2 }), DecisionRule.SimpleAcceptance);

        Assert.Equal(Verdict.NotDecided, judgement.Verdict);
        Assert.Equal(["CIELAB b* was not measured"], judgement.Reasons);
    }

    [Fact]
    public void Of_MissingUncertainty_IsNotDecidedOnlyUnderAGuardBand()
    {
        MeasuredQuantity haze = new(Measurands.Haze, 1.234);

        Judgement guarded = Judge.Of(Reading(3, haze), Film, DecisionRule.Guarded(0.5));

        Assert.Equal(Verdict.NotDecided, guarded.Verdict);
        Assert.Contains("its uncertainty is unknown", Assert.Single(guarded.Reasons), StringComparison.Ordinal);
        Assert.Equal(Verdict.Conformity, Judge.Of(Reading(3, haze), Film, DecisionRule.SimpleAcceptance).Verdict);
    }

    [Theory]
    [InlineData(1, "1 specimen measured, 3 required")]
    [InlineData(2, "2 specimens measured, 3 required")]
    [InlineData(3, null)]
    public void Of_TooFewSpecimens_IsNotDecided(int count, string? reason)
    {
        Judgement judgement = Judge.Of(Reading(count, Haze(1, 0.05)), Film, DecisionRule.SimpleAcceptance);

        Assert.Equal(reason is null ? Verdict.Conformity : Verdict.NotDecided, judgement.Verdict);
        Assert.Equal(reason, judgement.Reasons.FirstOrDefault());
    }

    [Fact]
    public void Of_AnotherMethod_IsNotDecided()
    {
        Judgement judgement = Judge.Of(Reading(3, Haze(1, 0.05)) with { MethodVersion = 2 }, Film, DecisionRule.SimpleAcceptance);

        Assert.Equal(Verdict.NotDecided, judgement.Verdict);
        Assert.Equal(["evaluated under method film-d65 version 2, specified under film-d65 version 1"], judgement.Reasons);
    }

    [Fact]
    public void Of_ColourDifference_IsTakenFromTheReferenceOfTheSpecification()
    {
        Specification specification = Specify(
            1, new LimitDraft("delta_e_ab") { Upper = 1, Reference = new ColourReference("reference-7", new CieLab(90, 1, 2)) });
        JudgedReading reading = Reading(
            1,
            // Taken from another reference: does not count here.
            new MeasuredQuantity(Measurands.DeltaEab, 0.2),
            new MeasuredQuantity(Measurands.CielabL, 91),
            new MeasuredQuantity(Measurands.CielabA, 3),
            new MeasuredQuantity(Measurands.CielabB, 4));

        LimitJudgement limit = Judge.Of(reading, specification, DecisionRule.SimpleAcceptance).Limits[0];

        // By hand: √(1² + 2² + 2²) = 3.
        Assert.Equal(3, limit.Value!.Value, 1e-12);
        Assert.Equal(Verdict.NonConformity, limit.Verdict);
    }

    [Fact]
    public void Of_ColourDifference_GivenAgainstTheReference_KeepsItsUncertainty()
    {
        Specification specification = Specify(
            1, new LimitDraft("delta_e_2000") { Upper = 1, Reference = new ColourReference("reference-7", new CieLab(90, 1, 2)) });
        MeasuredQuantity given = new(Measurands.DeltaE2000, 0.5) { StandardUncertainty = 0.1, ReferenceName = "reference-7" };

        Judgement judgement = Judge.Of(Reading(1, given), specification, DecisionRule.Guarded(1));

        Assert.Equal(Verdict.Conformity, judgement.Verdict);
        Assert.Same(given, judgement.Limits[0].Value);
    }

    [Fact]
    public void Of_OneLimitFails_TheWholeFails()
    {
        Specification specification = Specify(1, new LimitDraft("haze") { Upper = 2 }, new LimitDraft("cielab_b") { Upper = 1 });

        Judgement judgement = Judge.Of(Reading(1, Haze(3, 0.05)), specification, DecisionRule.SimpleAcceptance);

        Assert.Equal(Verdict.NonConformity, judgement.Verdict);
        Assert.Equal(2, judgement.Reasons.Length);
    }

    // A verdict names its version; the same reading under another version is another verdict beside it.
    [Fact]
    public void Of_AnotherVersion_LeavesTheFirstVerdictAsItWas()
    {
        SpecificationDraft draft = new() { Product = "lidding film 40", MethodName = "film-d65", Limits = [new LimitDraft("haze") { Upper = 2 }] };
        JudgedReading reading = Reading(1, Haze(2.31, 0.05));

        Judgement first = Judge.Of(reading, SpecificationCheck.Of(draft).Specification!, DecisionRule.SimpleAcceptance);
        Judgement second = Judge.Of(
            reading, SpecificationCheck.Of(draft with { Version = 2, Limits = [new LimitDraft("haze") { Upper = 2.5 }] }).Specification!, DecisionRule.SimpleAcceptance);

        Assert.Equal((1, Verdict.NonConformity), (first.Specification.Version, first.Verdict));
        Assert.Equal((2, Verdict.Conformity), (second.Specification.Version, second.Verdict));
    }

    // Without uncertainty the distance is shown with as many decimals as it takes to be seen.
    [Theory]
    [InlineData(2.25, "haze 2.25 % is 0.25 % above its upper limit 2.00 %")]
    [InlineData(2.0004, "haze 2.0004 % is 0.0004 % above its upper limit 2.0000 %")]
    public void Of_NoUncertainty_TheReasonStillShowsTheDistance(double haze, string reason) =>
        Assert.Equal(
            [reason], Judge.Of(Reading(3, new MeasuredQuantity(Measurands.Haze, haze)), Film, DecisionRule.SimpleAcceptance).Reasons);

    // Another unit (a factor) changes neither verdict nor probability.
    [Property(Replay = "(20240412,13)", MaxTest = 300)]
    public void Of_AnotherScale_ChangesNothing(short value, byte spread, byte width, byte factor)
    {
        double scale = Math.Pow(2, (factor % 20) - 10);
        double u = (spread + 1) / 8.0;
        LimitJudgement Judged(double by) => Judge.Of(
            new MeasuredQuantity(Measurands.CielabB, value * by) { StandardUncertainty = u * by, DegreesOfFreedom = 12 },
            Specify(1, new LimitDraft("cielab_b") { Lower = -width * by - by, Upper = (width + 1) * by }).Limits[0],
            DecisionRule.Guarded(1));

        Assert.Equal(Judged(1).Verdict, Judged(scale).Verdict);
        Assert.Equal(Judged(1).ProbabilityOfConformity!.Value, Judged(scale).ProbabilityOfConformity!.Value, 1e-12);
        Assert.Equal(Judged(1).DistanceInExpandedUncertainties!.Value, Judged(scale).DistanceInExpandedUncertainties!.Value, 1e-9);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(10.1)]
    [InlineData(double.NaN)]
    public void Guarded_FactorOutsideItsRange_IsRefused(double factor) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => DecisionRule.Guarded(factor));

    private static MeasuredQuantity Haze(double percent, double u) => new(Measurands.Haze, percent) { StandardUncertainty = u };

    private static JudgedReading Reading(int count, params MeasuredQuantity[] values) => new("film-d65", 1, count, [.. values]);

    private static Specification Specify(int specimens, params LimitDraft[] limits) =>
        SpecificationCheck.Of(new SpecificationDraft { Product = "lidding film 40", MethodName = "film-d65", RequiredSpecimens = specimens, Limits = [.. limits] })
            .Specification!;
}

using ClearView.Quality.Sampling;
using ClearView.Quality.Tests.Reference;

namespace ClearView.Quality.Tests.Sampling;

public sealed class VariablesPlanTests
{
    // Textbook example (Montgomery, "Introduction to Statistical Quality Control"; from memory): 1 % passes at 95 %, 6 % at 10 %;
    // a nomograph gives n = 40, k = 1.9 with unknown standard deviation.
    [Fact]
    public void For_TextbookRisks_GivesTheTextbookPlan()
    {
        var plan = VariablesPlan.For(0.01, 0.06, 0.05, 0.1);

        Assert.InRange(plan.Specimens, 38, 42);
        Assert.Equal(1.9, plan.AcceptabilityConstant, 0.05);
    }

    [Theory]
    [InlineData(0.01, 0.06, 0.05, 0.1)]
    [InlineData(0.001, 0.02, 0.05, 0.05)]
    [InlineData(0.04, 0.2, 0.1, 0.1)]
    public void For_KeepsBothRisks_AndOneSpecimenLessDoesNot(double good, double bad, double alpha, double beta)
    {
        var plan = VariablesPlan.For(good, bad, alpha, beta);

        Assert.True(plan.ProbabilityOfAcceptance(good) >= 1 - alpha);
        Assert.True(plan.ProbabilityOfAcceptance(bad) <= beta);
        for (int step = -100; step <= 100; step++)
        {
            var smaller = VariablesPlan.Of(plan.Specimens - 1, plan.AcceptabilityConstant + (step * 0.005));
            Assert.False(smaller.ProbabilityOfAcceptance(good) >= 1 - alpha && smaller.ProbabilityOfAcceptance(bad) <= beta);
        }
    }

    [Fact]
    public void ProbabilityOfAcceptance_AgreesWithR()
    {
        var plan = VariablesPlan.Of(20, 1.8);
        double[] shares = [0.001, 0.01, 0.03, 0.06, 0.2];
        double[] noncentralities = [.. shares.Select(share => Distributions(share) * Math.Sqrt(20))];

        double[] below = ReferenceR.Ask("reference_r.R", "pt", [1.8 * Math.Sqrt(20)], [19], noncentralities);

        Close.AssertAll([.. below.Select(p => 1 - p)], [.. shares.Select(plan.ProbabilityOfAcceptance)], 1e-9, 1e-10);
        static double Distributions(double share) => Quality.Distributions.NormalTail.UpperQuantile(share);
    }

    [Fact]
    public void Accepts_AtTheConstantItself()
    {
        var plan = VariablesPlan.Of(10, 2);

        Assert.True(plan.AcceptsBelow(1, 0.5, 2));
        Assert.False(plan.AcceptsBelow(1.01, 0.5, 2));
        Assert.True(plan.AcceptsAbove(90, 1, 88));
        Assert.False(plan.AcceptsAbove(89.9, 1, 88));
    }

    [Fact]
    public void Arguments_OutsideTheirRange_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => VariablesPlan.For(0.05, 0.01));
        Assert.Throws<ArgumentOutOfRangeException>(() => VariablesPlan.For(0, 0.01));
        Assert.Throws<ArgumentOutOfRangeException>(() => VariablesPlan.For(0.01, 0.05, 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => VariablesPlan.Of(1, 1.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => VariablesPlan.Of(5, double.NaN));
    }
}

using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Tests.Uncertainty;

/// <summary>Worked examples of JCGM 101, clause 9; figures from memory of the printed tables.</summary>
public class MonteCarloExampleTests
{
    private static readonly MonteCarloOptions Options = new(20261125, 0.95, 2, 100_000, 1_000_000);

    // 9.2.2: sum of four standard normal quantities: u = 2.0, [-3.92, 3.92].
    [Fact]
    public void AdditiveModel_Normal()
    {
        MonteCarloResult result = One((random, y) => y[0] = random.Normal() + random.Normal() + random.Normal() + random.Normal());

        Assert.Equal(0, result.Mean, 0.02);
        Assert.Equal(2.00, result.StandardUncertainty, 0.02);
        Assert.Equal(-3.92, result.IntervalLow, 0.05);
        Assert.Equal(3.92, result.IntervalHigh, 0.05);
        Assert.True(result.IsStable);
    }

    // 9.2.3: four rectangular quantities of the same width: [-3.88, 3.88].
    [Fact]
    public void AdditiveModel_Rectangular()
    {
        MonteCarloResult result = One((random, y) => y[0] = random.Rectangular() + random.Rectangular() + random.Rectangular() + random.Rectangular());

        Assert.Equal(2.00, result.StandardUncertainty, 0.02);
        Assert.Equal(-3.88, result.IntervalLow, 0.03);
        Assert.Equal(3.88, result.IntervalHigh, 0.03);
    }

    // 9.2.4: one rectangular quantity of ten times the width: u = 10.1, [-17.0, 17.0], where the linear method gives ±19.9.
    [Fact]
    public void AdditiveModel_OneDominantRectangular_TheLinearResultIsNotValidated()
    {
        MonteCarloResult result = One((random, y) =>
            y[0] = random.Rectangular() + random.Rectangular() + random.Rectangular() + (10 * random.Rectangular()));

        Assert.Equal(10.1, result.StandardUncertainty, 0.1);
        Assert.Equal(-17.0, result.IntervalLow, 0.1);
        Assert.Equal(17.0, result.IntervalHigh, 0.1);
        Assert.False(result.Validates(0, 19.9, MonteCarloResult.Tolerance(10.1, 2)));
    }

    // 9.3: mass calibration, δm in mg: 1.2341, u = 0.0754, [1.0834, 1.3825]; the first-order linear u is 0.0539.
    [Fact]
    public void MassCalibration_SecondOrderEffectsAreSeen()
    {
        MonteCarloResult result = One((random, y) =>
        {
            double reference = 100_000 + (0.050 * random.Normal());
            double balance = 1.234 + (0.020 * random.Normal());
            double air = 1.20 + (0.10 / Math.Sqrt(3) * random.Rectangular());
            double weight = 8000 + (1000 / Math.Sqrt(3) * random.Rectangular());
            double standard = 8000 + (50 / Math.Sqrt(3) * random.Rectangular());
            y[0] = ((reference + balance) * (1 + ((air - 1.2) * ((1 / weight) - (1 / standard))))) - 100_000;
        });

        Assert.Equal(1.2341, result.Mean, 0.0008);
        Assert.Equal(0.0754, result.StandardUncertainty, 0.0005);
        Assert.Equal(1.0834, result.IntervalLow, 0.003);
        Assert.Equal(1.3825, result.IntervalHigh, 0.003);
    }

    // 9.4.2: comparison loss x1² + x2² near zero, in units of 10⁻⁶: 50, u = 50, 95 % one-sided to 150. Symmetric here, so only moments.
    [Fact]
    public void ComparisonLoss_NearZero_MomentsOfTheChiSquared()
    {
        MonteCarloResult result = One((random, y) =>
        {
            double x1 = 0.005 * random.Normal();
            double x2 = 0.005 * random.Normal();
            y[0] = 1e6 * ((x1 * x1) + (x2 * x2));
        });

        Assert.Equal(50, result.Mean, 0.5);
        Assert.Equal(50, result.StandardUncertainty, 0.5);
        Assert.True(result.IntervalLow > 0);
    }

    // JCGM 101, 7.9.2, examples: u = 0.000 35 with two digits gives δ = 0.000 005; u = 0.0003 with one digit, δ = 0.000 05.
    [Theory]
    [InlineData(0.000_35, 2, 0.000_005)]
    [InlineData(0.000_3, 1, 0.000_05)]
    [InlineData(2, 1, 0.5)]
    [InlineData(0.996, 2, 0.05)]
    public void Tolerance_OfTheStandardsExamples(double u, int digits, double expected) =>
        Assert.Equal(expected, MonteCarloResult.Tolerance(u, digits), expected * 1e-9);

    [Fact]
    public void SameSeed_SameResult()
    {
        AdaptiveMonteCarlo.Trial trial = (random, y) => y[0] = random.Normal();
        var options = new MonteCarloOptions(7, 0.95, 1, 10_000, 40_000);

        Assert.Equal(AdaptiveMonteCarlo.Run(1, trial, options), AdaptiveMonteCarlo.Run(1, trial, options));
        Assert.NotEqual(AdaptiveMonteCarlo.Run(1, trial, options), AdaptiveMonteCarlo.Run(1, trial, options with { Seed = 8 }));
    }

    private static MonteCarloResult One(AdaptiveMonteCarlo.Trial trial) => AdaptiveMonteCarlo.Run(1, trial, Options)[0];
}

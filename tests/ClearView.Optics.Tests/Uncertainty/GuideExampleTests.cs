using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Tests.Uncertainty;

/// <summary>Worked examples of JCGM 100 (the GUM), annex H; figures from memory of the printed tables.</summary>
public class GuideExampleTests
{
    private const int N = LinearFunctionals.Count;

    // JCGM 100, table H.2: five simultaneous observations of voltage (V), current (A) and phase (rad).
    private static readonly double[][] Observations =
    [
        [5.007, 4.994, 5.005, 4.990, 4.999],
        [19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3],
        [1.0456, 1.0438, 1.0468, 1.0428, 1.0433],
    ];

    [Fact]
    public void H2_ResistanceReactanceImpedance_WithCorrelation()
    {
        double[] covariance = CovarianceOfMeans(Observations);
        Dual voltage = Dual.Variable(Observations[0].Average(), 0);
        Dual current = Dual.Variable(Observations[1].Average(), 1);
        Dual phase = Dual.Variable(Observations[2].Average(), 2);
        Dual resistance = voltage / current * Dual.Cos(phase);
        Dual reactance = voltage / current * Dual.Sin(phase);
        Dual impedance = voltage / current;

        // Table H.4, to the digits printed there.
        Assert.Equal(127.732, resistance.Value, 0.0005);
        Assert.Equal(219.847, reactance.Value, 0.0005);
        Assert.Equal(254.260, impedance.Value, 0.0005);
        Assert.Equal(0.071, U(resistance), 0.0005);
        Assert.Equal(0.295, U(reactance), 0.0006);
        Assert.Equal(0.236, U(impedance), 0.0005);
        Assert.Equal(-0.588, R(resistance, reactance), 0.0005);
        Assert.Equal(-0.485, R(resistance, impedance), 0.0006);
        Assert.Equal(0.993, R(reactance, impedance), 0.0005);

        double U(Dual y) => Math.Sqrt(Propagation.Variance(y, covariance));
        double R(Dual a, Dual b) => Propagation.Covariance(a, covariance, b) / (U(a) * U(b));
    }

    // JCGM 100, H.1: end-gauge calibration, table H.1. l = ls + d − ls(δα·θ + αs·δθ), nm.
    [Fact]
    public void H1_EndGauge_CombinedUncertaintyAndCoverage()
    {
        (double Estimate, double U, double Dof)[] inputs =
        [
            (50_000_623, 25, 18),
            (215, 9.7, 25.6),
            (0, 0.58e-6, 50),
            (-0.1, 0.41, double.PositiveInfinity),
            (11.5e-6, 1.2e-6, double.PositiveInfinity),
            (0, 0.029, 2),
        ];
        Dual[] x = [.. inputs.Select((input, i) => Dual.Variable(input.Estimate, i))];
        Dual length = x[0] + x[1] - (x[0] * ((x[2] * x[3]) + (x[4] * x[5])));

        double[] parts = [.. inputs.Select((input, i) => Math.Abs(length.Gradient[i]) * input.U)];
        double combined = Math.Sqrt(parts.Sum(part => part * part));
        double effective = Coverage.EffectiveDegreesOfFreedom([.. parts.Zip(inputs, (part, input) => (part, input.Dof))]);
        double factor = Coverage.Factor(0.99, effective);

        // Printed: l = 50.000838 mm, uc = 32 nm, νeff = 16.7, t99 = 2.92, U99 = 93 nm.
        Assert.Equal(50_000_838, length.Value, 1e-6);
        Assert.Equal(32, combined, 0.5);
        Assert.Equal(16.7, effective, 0.1);
        Assert.Equal(2.92, factor, 0.005);
        Assert.Equal(93, factor * combined, 0.6);
    }

    // JCGM 100, table G.2.
    [Theory]
    [InlineData(0.95, 1, 12.71)]
    [InlineData(0.95, 5, 2.57)]
    [InlineData(0.95, 20, 2.09)]
    [InlineData(0.99, 10, 3.17)]
    [InlineData(0.9545, 50, 2.05)]
    [InlineData(0.95, double.PositiveInfinity, 1.960)]
    public void Factor_OfTableG2_IsReproduced(double probability, double degreesOfFreedom, double expected) =>
        Assert.Equal(expected, Coverage.Factor(probability, degreesOfFreedom), 0.005);

    // JCGM 100, G.4.2: degrees of freedom are truncated.
    [Fact]
    public void Factor_BetweenWholeDegreesOfFreedom_TakesTheLower() =>
        Assert.Equal(Coverage.Factor(0.95, 5), Coverage.Factor(0.95, 5.99));

    // A whole number that rounding has left a trace short is still that number.
    [Fact]
    public void Factor_OfAWholeNumberLessARounding_TakesThatNumber() =>
        Assert.Equal(Coverage.Factor(0.95, 9), Coverage.Factor(0.95, Math.BitDecrement(9)));

    [Theory]
    [InlineData(0, 5)]
    [InlineData(1, 5)]
    [InlineData(double.NaN, 5)]
    [InlineData(0.95, 0.99)]
    [InlineData(0.95, double.NaN)]
    public void Factor_OutsideItsRange_IsRefused(double probability, double degreesOfFreedom) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => Coverage.Factor(probability, degreesOfFreedom));

    private static double[] CovarianceOfMeans(double[][] observations)
    {
        var covariance = new double[N * N];
        int n = observations[0].Length;
        for (int j = 0; j < observations.Length; j++)
        {
            for (int k = 0; k < observations.Length; k++)
            {
                double meanJ = observations[j].Average();
                double meanK = observations[k].Average();
                covariance[(j * N) + k] = observations[j].Zip(observations[k], (a, b) => (a - meanJ) * (b - meanK)).Sum() / (n * (n - 1.0));
            }
        }

        return covariance;
    }
}

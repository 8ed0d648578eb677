using ClearView.Quality.Specifications;
using ClearView.Quality.Tests.Reference;

using FsCheck.Xunit;

namespace ClearView.Quality.Tests.Specifications;

public sealed class ConformityProbabilityTests
{
    // JCGM 106, examples of clause 7, from memory: a Zener diode (one upper limit), burst strength of a container (one lower
    // limit), the viscosity of a motor oil (two limits). Printed to two or three digits.
    [Theory]
    [InlineData(-5.47, 0.05, null, -5.40, 0.92, 0.005)]
    [InlineData(509.7, 8.6, 490.0, null, 0.99, 0.005)]
    [InlineData(13.6, 1.8, 12.5, 16.3, 0.66, 0.005)]
    public void Of_ExamplesOfJcgm106(double value, double u, double? lower, double? upper, double expected, double printed) =>
        Assert.Equal(expected, ConformityProbability.Of(value, u, double.PositiveInfinity, lower, upper), printed);

    // JCGM 106, table 1, from memory: (limit − value)/u for a single limit, and the probability of conformity.
    [Theory]
    [InlineData(0.84, 0.80)]
    [InlineData(1.28, 0.90)]
    [InlineData(1.64, 0.95)]
    [InlineData(2.33, 0.99)]
    [InlineData(3.09, 0.999)]
    public void Of_TableOfJcgm106(double z, double expected) =>
        Assert.Equal(expected, ConformityProbability.Of(0, 1, double.PositiveInfinity, null, z), 0.0007);

    [Theory]
    [InlineData(1, 2, 3, -1, 4)]
    [InlineData(2.31, 0.05, 7.4, 2, 2.4)]
    [InlineData(0, 1, 1, -5, 5)]
    public void Of_FiniteDegreesOfFreedom_AgreesWithR(double y, double u, double nu, double lower, double upper) =>
        Assert.Equal(
            ReferenceR.Ask("reference_control.R", "probability", [y], [u], [nu], [lower], [upper])[0],
            ConformityProbability.Of(y, u, nu, lower, upper),
            1e-10);

    [Property(Replay = "(20240411,11)", MaxTest = 200)]
    public void Of_MirroredAtZero_IsTheSame(short value, byte spread, short limit)
    {
        double u = (spread + 1) / 10.0;

        Assert.Equal(
            ConformityProbability.Of(value, u, 9, null, limit),
            ConformityProbability.Of(-value, u, 9, -limit, null),
            1e-14);
        Assert.Equal(1, ConformityProbability.Of(value, u, 9, null, limit) + ConformityProbability.Of(value, u, 9, limit, null), 1e-12);
    }

    [Fact]
    public void Of_ValueOnALimit_IsOneHalf() =>
        Assert.Equal(0.5, ConformityProbability.Of(2, 0.1, double.PositiveInfinity, null, 2), 1e-15);

    [Theory]
    [InlineData(1.9, 1)]
    [InlineData(2.0, 1)]
    [InlineData(2.1, 0)]
    public void Of_NoUncertainty_IsYesOrNo(double value, double expected) =>
        Assert.Equal(expected, ConformityProbability.Of(value, 0, 5, null, 2));
}

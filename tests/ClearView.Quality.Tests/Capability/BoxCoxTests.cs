using ClearView.Quality.Capability;
using ClearView.Quality.Tests.ControlCharts;
using ClearView.Quality.Tests.Reference;

using FsCheck.Xunit;

namespace ClearView.Quality.Tests.Capability;

public sealed class BoxCoxTests
{
    [Theory]
    [InlineData(31, 0.5)]
    [InlineData(32, 1.0)]
    [InlineData(33, 3.0)]
    public void Fit_AgreesWithR(int seed, double power)
    {
        double[] drawn = [.. Draws.Normal(seed, 80, 10, 1.5).Select(value => Math.Pow(value, power))];

        // Both searches end where the likelihood no longer changes in double precision: about 1e-8 of λ in the root.
        Assert.Equal(ReferenceR.Ask("reference_control.R", "box_cox", drawn)[0], BoxCox.Fit(drawn).Lambda, 1e-5);
    }

    [Fact]
    public void Fit_Lognormal_IsNearTheLogarithm()
    {
        double lambda = BoxCox.Fit(Draws.Normal(34, 3000, 0, 0.5).Select(Math.Exp).ToArray()).Lambda;

        // Standard error of λ is about 1/(σ√(2n)) ≈ 0.026.
        Assert.Equal(0, lambda, 0.1);
    }

    [Property(Replay = "(20240417,23)", MaxTest = 30)]
    public void Fit_AnotherUnit_IsTheSameLambda(int seed, byte factor)
    {
        double[] drawn = [.. Draws.Normal(seed, 40, 20, 2)];

        Assert.Equal(BoxCox.Fit(drawn).Lambda, BoxCox.Fit(drawn.Select(value => value * (factor + 1)).ToArray()).Lambda, 1e-5);
    }

    [Property(Replay = "(20240418,25)", MaxTest = 200)]
    public void Invert_OfTransform_IsTheValue(byte value, sbyte lambda)
    {
        BoxCox transformation = new(lambda / 64.0);
        double x = (value + 1) / 10.0;

        Assert.Equal(1, transformation.Invert(transformation.Transform(x)) / x, 1e-6);
    }

    [Fact]
    public void Fit_NotAboveZeroOrAlike_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => BoxCox.Fit([1, 0, 2]));
        Assert.Throws<ArgumentException>(() => BoxCox.Fit([1, -1, 2]));
        Assert.Throws<ArgumentException>(() => BoxCox.Fit([2, 2, 2]));
        Assert.Throws<ArgumentException>(() => BoxCox.Fit([1, 2]));
    }
}

using ClearView.Quality.Distributions;
using ClearView.Quality.Tests.Reference;

namespace ClearView.Quality.Tests.Distributions;

/// <summary>t, F, chi-squared and non-central F against R.</summary>
public sealed class TestTailTests
{
    private static readonly double[] Probabilities = [1e-10, 0.001, 0.025, 0.3, 0.5, 0.8, 0.975];

    [Theory]
    [InlineData(1)]
    [InlineData(2.7)]
    [InlineData(30)]
    [InlineData(5000)]
    public void Student(double df)
    {
        double[] values = [-4, -0.2, 0, 0.5, 2, 9, 40];

        Close.AssertAll(Ask("student_upper", values, df), [.. values.Select(t => TestTail.StudentUpper(t, df))], 1e-11);
        Close.AssertAll(Ask("student_quantile", Probabilities, df), [.. Probabilities.Select(p => TestTail.StudentUpperQuantile(p, df))], 1e-10);
    }

    [Theory]
    [InlineData(1, 1)]
    [InlineData(3, 12.4)]
    [InlineData(8, 18000)]
    public void Fisher(double numerator, double denominator)
    {
        double[] values = [0.01, 0.5, 1, 3, 20];

        Close.AssertAll(
            Ask("fisher_upper", values, numerator, denominator), [.. values.Select(f => TestTail.FisherUpper(f, numerator, denominator))], 1e-10);
        Close.AssertAll(
            Ask("fisher_quantile", Probabilities, numerator, denominator),
            [.. Probabilities.Select(p => TestTail.FisherUpperQuantile(p, numerator, denominator))],
            1e-9);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(6)]
    [InlineData(250)]
    public void ChiSquared(double df)
    {
        double[] values = [0.01, 1, 5, 30, 300];

        Close.AssertAll(Ask("chi_squared_upper", values, df), [.. values.Select(x => TestTail.ChiSquaredUpper(x, df))], 1e-10);
        Close.AssertAll(Ask("chi_squared_quantile", Probabilities, df), [.. Probabilities.Select(p => TestTail.ChiSquaredUpperQuantile(p, df))], 1e-10);
    }

    // R sums its non-central beta to 1e-9.
    [Theory]
    [InlineData(2, 12, 0)]
    [InlineData(2, 12, 5)]
    [InlineData(4, 95, 40)]
    [InlineData(1, 3, 900)]
    public void NoncentralFisher(double numerator, double denominator, double noncentrality)
    {
        double[] values = [0.5, 2.5, 4, 15];

        Close.AssertAll(
            Ask("fisher_noncentral_upper", values, numerator, denominator, noncentrality),
            [.. values.Select(f => NoncentralF.UpperTail(f, numerator, denominator, noncentrality))],
            1e-9,
            1e-9);
    }

    private static double[] Ask(string question, double[] values, params double[] parameters) =>
        ReferenceR.Ask("reference_r.R", question, [values, .. parameters.Select(parameter => new[] { parameter })]);
}

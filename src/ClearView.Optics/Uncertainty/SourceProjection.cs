using System.Runtime.Intrinsics;

namespace ClearView.Optics.Uncertainty;

/// <summary>What one source does to the weighted sums: one move of them all, or their covariance.</summary>
internal readonly struct SourceProjection
{
    private readonly UncertaintySource _source;
    private readonly Vector512<double> _move;
    private readonly double[]? _covariance;

    /// <summary>A source of one error on whole spectra: the sums move together, and nothing is squared before it must be.</summary>
    public SourceProjection(UncertaintySource source, ReadOnlySpan<double> move)
    {
        _source = source;
        _move = Vector512.Create(move);
    }

    /// <summary>Any other source.</summary>
    public SourceProjection(UncertaintySource source, double[] covariance)
    {
        _source = source;
        _covariance = covariance;
    }

    /// <summary>Whether the source is one error on whole spectra.</summary>
    public bool IsOneMove => _covariance is null;

    /// <summary>Standard uncertainty that the source contributes.</summary>
    public double Contribution(in Dual quantity) =>
        _covariance is null ? Math.Abs(Move(quantity)) : Root(Propagation.Variance(quantity, _covariance));

    /// <summary>Standard uncertainty that the source contributes.</summary>
    public double Contribution(SpectralGradient quantity) =>
        _covariance is null ? Math.Abs(Move(quantity)) : Root(quantity.Variance(_source));

    /// <summary>Signed move at one standard uncertainty of the source, which is one error on whole spectra.</summary>
    public double Move(in Dual quantity) => Vector512.Sum(quantity.Gradient * _move);

    /// <summary>Signed move at one standard uncertainty of the source, which is one error on whole spectra.</summary>
    public double Move(SpectralGradient quantity) => quantity.Move(_source, 0);

    // A quadratic form of a covariance is not negative; rounding may leave it a trace below zero.
    private static double Root(double variance) => Math.Sqrt(variance < 0 ? 0 : variance);
}

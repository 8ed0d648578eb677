using System.Runtime.Intrinsics;

namespace ClearView.Optics.Uncertainty;

/// <summary>Variances and covariances of differentiable quantities (JCGM 100, 5.2.2).</summary>
internal static class Propagation
{
    /// <summary>gᵀ·C·h for two gradients and the covariance of the eight variables, 8 × 8 by rows.</summary>
    public static double Covariance(Dual one, ReadOnlySpan<double> covariance, Dual other)
    {
        Vector512<double> sum = default;
        for (int row = 0; row < LinearFunctionals.Count; row++)
        {
            Vector512<double> line = Vector512.Create(covariance.Slice(row * LinearFunctionals.Count, LinearFunctionals.Count));
            sum += line * Vector512.Create(one.Gradient[row]);
        }

        return Vector512.Sum(sum * other.Gradient);
    }

    /// <summary>gᵀ·C·g.</summary>
    public static double Variance(Dual quantity, ReadOnlySpan<double> covariance) => Covariance(quantity, covariance, quantity);
}

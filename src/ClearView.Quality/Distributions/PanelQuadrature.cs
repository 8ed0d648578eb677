using MathNet.Numerics.Integration;

namespace ClearView.Quality.Distributions;

/// <summary>Gauss-Legendre quadrature over panels whose borders the caller lays where the integrand bends.</summary>
internal static class PanelQuadrature
{
    private const int Order = 16;

    private static readonly GaussLegendreRule Rule = new(-1, 1, Order);
    private static readonly double[] Abscissas = Rule.Abscissas;
    private static readonly double[] Weights = Rule.Weights;

    /// <summary>Integral between the least and the greatest border that lie within the bounds, and the bounds themselves.</summary>
    public static double Integrate(Func<double, double> integrand, double lower, double upper, IEnumerable<double> borders)
    {
        double[] inner = [.. borders.Where(border => border > lower && border < upper).Append(lower).Append(upper).Distinct().Order()];
        double sum = 0;
        for (int panel = 1; panel < inner.Length; panel++)
        {
            double half = (inner[panel] - inner[panel - 1]) / 2;
            double middle = inner[panel - 1] + half;
            double part = 0;
            for (int i = 0; i < Order; i++)
            {
                part += Weights[i] * integrand(middle + (half * Abscissas[i]));
            }

            sum += half * part;
        }

        return sum;
    }

    /// <summary>Borders that crowd towards zero, where a power with a broken exponent is not smooth.</summary>
    public static IEnumerable<double> TowardsZero(double from) => Enumerable.Range(0, 9).Select(i => from * Math.Pow(4, -i));

    /// <summary>Borders around a place on a scale: the place itself and both sides in doubling steps.</summary>
    public static IEnumerable<double> Around(double place, double scale, int doublings)
    {
        yield return place;
        double step = scale / 2;
        for (int i = 0; i < doublings; i++, step *= 2)
        {
            yield return place - step;
            yield return place + step;
        }
    }
}

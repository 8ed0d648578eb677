namespace ClearView.Quality.Distributions;

/// <summary>Where a monotone function crosses zero.</summary>
internal static class MonotoneRoot
{
    private const int MaxIterations = 200;

    /// <summary>Widens an interval until the function changes sign over it, then closes it by the method of Chandrupatla (1997).</summary>
    /// <param name="function">Monotone and continuous.</param>
    /// <param name="from">Where to begin.</param>
    /// <param name="step">First step, not zero.</param>
    /// <param name="least">The function is not asked below this.</param>
    public static double Find(Func<double, double> function, double from, double step, double least = double.NegativeInfinity)
    {
        double low = from;
        double high = from + Math.Abs(step);
        double atLow = function(low);
        double atHigh = function(high);
        for (int i = 0; i < MaxIterations && Math.Sign(atLow) == Math.Sign(atHigh); i++)
        {
            double width = 2 * (high - low);
            if (Math.Abs(atLow) < Math.Abs(atHigh) && low > least)
            {
                (high, atHigh) = (low, atLow);
                low = Math.Max(least, low - width);
                atLow = function(low);
            }
            else
            {
                (low, atLow) = (high, atHigh);
                high += width;
                atHigh = function(high);
            }
        }

        return Math.Sign(atLow) == Math.Sign(atHigh) && atLow != 0
            ? throw new ArithmeticException($"No zero was found from {from} on.")
            : Close(function, low, atLow, high, atHigh);
    }

    private static double Close(Func<double, double> function, double a, double fa, double b, double fb)
    {
        double c = a;
        double fc = fa;
        double t = 0.5;
        for (int i = 0; i < MaxIterations; i++)
        {
            double x = a + (t * (b - a));
            double fx = function(x);
            if (Math.Sign(fx) == Math.Sign(fa))
            {
                (c, fc) = (a, fa);
            }
            else
            {
                (c, fc, b, fb) = (b, fb, a, fa);
            }

            (a, fa) = (x, fx);
            (double best, double atBest) = Math.Abs(fa) < Math.Abs(fb) ? (a, fa) : (b, fb);
            double shareOfWidth = ((1e-13 * Math.Abs(best)) + 1e-15) / Math.Abs(b - a);
            if (atBest == 0 || !(shareOfWidth < 0.5))
            {
                return best;
            }

            double xi = (a - b) / (c - b);
            double phi = (fa - fb) / (fc - fb);
            t = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi
                ? (fa / (fb - fa) * (fc / (fb - fc))) + ((c - a) / (b - a) * (fa / (fc - fa)) * (fb / (fc - fb)))
                : 0.5;
            t = Math.Clamp(t, shareOfWidth, 1 - shareOfWidth);
        }

        return Math.Abs(fa) < Math.Abs(fb) ? a : b;
    }
}

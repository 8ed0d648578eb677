using System.Collections.Immutable;

using ClearView.Quality.Descriptive;
using ClearView.Quality.Distributions;

namespace ClearView.Quality.Lots;

/// <summary>Least-squares lines over ageing time and their comparison.</summary>
internal static class Ageing
{
    private sealed record Line(Lot Lot, double Slope, double Intercept, double TimeSquares, double Products, double ResidualSquares);

    /// <summary>Compares slopes; <see langword="null"/> where no lot has ageing times.</summary>
    public static Stated<AgeingComparison>? Compare(IReadOnlyList<Lot> lots, double confidence)
    {
        if (lots.All(lot => lot.AgeingTimesH is null))
        {
            return null;
        }

        foreach (Lot lot in lots)
        {
            if (lot.AgeingTimesH is not { } times || times.Distinct().Count() < 2)
            {
                return Stated<AgeingComparison>.Not(
                    DegenerateReason.NoAgeing, $"Lot {lot.Name} needs specimens of at least two ageing times for a slope.");
            }
        }

        Line[] lines = [.. lots.Select(Fit)];
        Stated<FTest> equal = EqualSlopes(lines, out double residual, out double degrees);
        double tail = (1 - confidence) / 2;
        return Stated<AgeingComparison>.As(new AgeingComparison(
            [.. lines.Select(line => Slope(line, tail))],
            equal,
            equal.Value is null ? [] : Pairs(lines, residual, degrees, 1 - confidence)));
    }

    private static Line Fit(Lot lot)
    {
        double[] times = [.. lot.AgeingTimesH!.Value];
        DoubleDouble meanTime = DoubleDouble.Mean(times);
        DoubleDouble meanValue = DoubleDouble.Mean(lot.Values);
        double timeSquares = 0;
        double products = 0;
        double valueSquares = 0;
        double[] byTime = [.. times.Select(time => Deviation(time, meanTime))];
        double[] byValue = [.. lot.Values.Select(value => Deviation(value, meanValue))];
        for (int i = 0; i < byTime.Length; i++)
        {
            timeSquares += byTime[i] * byTime[i];
            products += byTime[i] * byValue[i];
            valueSquares += byValue[i] * byValue[i];
        }

        double slope = products / timeSquares;
        double residual = byTime.Zip(byValue, (time, value) => Math.Pow(value - (slope * time), 2)).Sum();
        // What remains of rounding alone is no spread.
        residual = residual <= 1e-24 * valueSquares ? 0 : residual;
        return new Line(lot, slope, meanValue.ToDouble() - (slope * meanTime.ToDouble()), timeSquares, products, residual);
    }

    private static double Deviation(double value, DoubleDouble mean) => new DoubleDouble(value, 0).Subtract(mean).ToDouble();

    private static AgeingSlope Slope(Line line, double tail)
    {
        int degrees = line.Lot.Values.Length - 2;
        double? error = degrees > 0 ? Math.Sqrt(line.ResidualSquares / degrees / line.TimeSquares) : null;
        return new AgeingSlope(
            line.Lot.Name,
            line.Slope,
            line.Intercept,
            error,
            degrees,
            error is { } known ? Interval.Around(line.Slope, known * TestTail.StudentUpperQuantile(tail, degrees)) : null);
    }

    private static Stated<FTest> EqualSlopes(Line[] lines, out double residual, out double degrees)
    {
        double own = lines.Sum(line => line.ResidualSquares);
        degrees = lines.Sum(line => line.Lot.Values.Length) - (2 * lines.Length);
        residual = own / degrees;
        if (degrees <= 0)
        {
            return Stated<FTest>.Not(DegenerateReason.TooFewSpecimens, "With two specimens per lot every line fits exactly: nothing tells how specimens scatter about it.");
        }

        if (own == 0)
        {
            return Stated<FTest>.Not(DegenerateReason.NoSpread, "Every specimen lies on the line of its lot: no F can be formed.");
        }

        double common = lines.Sum(line => line.Products) / lines.Sum(line => line.TimeSquares);
        double extra = lines.Sum(line => line.TimeSquares * Math.Pow(line.Slope - common, 2));
        double f = extra / (lines.Length - 1) / residual;
        return Stated<FTest>.As(new FTest(f, lines.Length - 1, degrees, TestTail.FisherUpper(f, lines.Length - 1, degrees)));
    }

    private static ImmutableArray<SlopePair> Pairs(Line[] lines, double residual, double degrees, double significance)
    {
        var critical = new StudentisedRangeCritical(lines.Length, degrees, significance);
        return
        [
            .. from first in Enumerable.Range(0, lines.Length)
               from second in Enumerable.Range(first + 1, lines.Length - first - 1)
               let difference = lines[first].Slope - lines[second].Slope
               let error = Math.Sqrt(residual * ((1 / lines[first].TimeSquares) + (1 / lines[second].TimeSquares)))
               select new SlopePair(lines[first].Lot.Name, lines[second].Lot.Name, difference, critical.Test(difference, error)),
        ];
    }
}

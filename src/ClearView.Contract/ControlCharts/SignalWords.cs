using System.Globalization;

using ClearView.Optics.Evaluations;
using ClearView.Quality.ControlCharts;
using ClearView.Quality.Descriptive;
using ClearView.V1;

namespace ClearView.Contract.ControlCharts;

/// <summary>Says a signal in words, with figures.</summary>
public static class SignalWords
{
    private const double NearDeviations = 2;

    /// <summary>What a pattern says at a point, for example "beyond the upper control limit: haze 3.4 %, limit 2.9 %".</summary>
    /// <param name="pattern">The pattern, one that the point raises.</param>
    /// <param name="fed">The point.</param>
    /// <param name="chart">The chart.</param>
    /// <param name="measurand">What was measured.</param>
    public static string Of(ControlPattern pattern, in FedPoint fed, ChartDefinition chart, Measurand measurand)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(measurand);
        ControlPoint point = fed.Point;
        ControlLimits limits = chart.Phases[fed.Phase].Limits;
        string what = Named(fed, measurand);
        bool above = point.Value > limits.Centre;
        string side = above ? "above" : "below";
        string centre = Figure(limits.Centre, limits, measurand);
        string value = Figure(point.Value, limits, measurand);
        return pattern switch
        {
            ControlPattern.BeyondLimits => Beyond(
                above ? "upper control limit" : "lower control limit", what, point.Value, above ? point.Limits.Upper : point.Limits.Lower, limits, measurand),
            ControlPattern.RunOnOneSide => $"run on one side: {Number(chart.Rules.RunLength)} points or more in a row {side} the centre line of {centre}; {what} {value}",
            ControlPattern.Trend => $"trend: {Number(chart.Rules.TrendLength)} points or more in a row, each above, or each below, the one before; {what} {value}",
            ControlPattern.Alternation => $"alternation: 14 points in a row go up and down in turn; {what} {value}",
            ControlPattern.TwoOfThreeNearLimit => $"two of three near the limit: two of three points in a row more than two standard deviations {side} the centre line; {what} {value}, two standard deviations are at {Figure(At(point, above ? NearDeviations : -NearDeviations), limits, measurand)}",
            ControlPattern.FourOfFiveOffCentre => $"four of five off centre: four of five points in a row more than one standard deviation {side} the centre line; {what} {value}, one standard deviation is at {Figure(At(point, above ? 1 : -1), limits, measurand)}",
            ControlPattern.HuggingCentre => $"hugging the centre: 15 points in a row within one standard deviation of the centre line of {centre}; {what} {value}",
            ControlPattern.AvoidingCentre => $"avoiding the centre: 8 points in a row more than one standard deviation from the centre line of {centre}, on both sides; {what} {value}",
            ControlPattern.SpreadBeyondLimits => Spread(fed, limits, measurand),
            ControlPattern.EwmaBeyondLimits => Ewma(point, limits, measurand),
            ControlPattern.SumAboveTarget => Sum("above", point.SumAbove, point.Limits.Upper, limits, measurand),
            ControlPattern.SumBelowTarget => Sum("below", point.SumBelow, point.Limits.Upper, limits, measurand),
            _ => throw new ArgumentOutOfRangeException(nameof(pattern), pattern, "expected a known pattern."),
        };
    }

    private static string Beyond(string limit, string what, double value, double bound, ControlLimits limits, Measurand measurand)
    {
        (string shown, string at) = Pair(value, bound, limits, measurand);
        return $"beyond the {limit}: {what} {shown}, limit {at}";
    }

    private static string Spread(in FedPoint fed, ControlLimits limits, Measurand measurand)
    {
        ChartBand band = limits.ForSpread(fed.ReadingCount) ?? default;
        bool above = fed.Point.Spread > band.Centre;
        string what = limits.Kind switch
        {
            Quality.ControlCharts.ControlChartKind.Individuals => "moving range",
            Quality.ControlCharts.ControlChartKind.AveragesWithRange => "range",
            _ => "standard deviation",
        };
        (string shown, string at) = Pair(fed.Point.Spread, above ? band.Upper : band.Lower, limits, measurand);
        return $"spread beyond its {(above ? "upper" : "lower")} limit: {what} of {MeasurandInWords.Name(measurand)} {shown}, limit {at}";
    }

    private static string Ewma(in ControlPoint point, ControlLimits limits, Measurand measurand)
    {
        bool above = point.Plotted > limits.Centre;
        return Beyond(
            $"{(above ? "upper" : "lower")} limit of the exponentially weighted moving average",
            $"moving average of {MeasurandInWords.Name(measurand)}",
            point.Plotted,
            above ? point.Limits.Upper : point.Limits.Lower,
            limits,
            measurand);
    }

    private static string Sum(string side, double sum, double interval, ControlLimits limits, Measurand measurand)
    {
        (string shown, string at) = Pair(sum, interval, limits, measurand);
        return $"cumulative sum of {MeasurandInWords.Name(measurand)} {side} the target of {Figure(limits.Centre, limits, measurand)}: {shown}, decision interval {at}";
    }

    private static double At(in ControlPoint point, double deviations) =>
        point.Limits.Centre + (deviations * (point.Limits.Upper - point.Limits.Centre) / 3);

    private static string Named(in FedPoint fed, Measurand measurand)
    {
        string of = fed.Label.Length > 0 ? $" of {fed.Label}" : "";
        return fed.ReadingCount > 1 ? $"mean {MeasurandInWords.Name(measurand)}{of}" : $"{MeasurandInWords.Name(measurand)}{of}";
    }

    private static string Figure(double value, ControlLimits limits, Measurand measurand) =>
        WithUnit(value, Decimals(limits), measurand);

    // A value that is only just beyond its limit is shown with more places, so that both do not read alike.
    private static (string Value, string Limit) Pair(double value, double limit, ControlLimits limits, Measurand measurand)
    {
        int decimals = Decimals(limits);
        while (decimals < 12 && WithUnit(value, decimals, measurand) == WithUnit(limit, decimals, measurand))
        {
            decimals++;
        }

        return (WithUnit(value, decimals, measurand), WithUnit(limit, decimals, measurand));
    }

    private static string WithUnit(double value, int decimals, Measurand measurand)
    {
        string figure = value.ToString($"F{decimals}", CultureInfo.InvariantCulture);
        return measurand.Unit.Length == 0 ? figure : $"{figure} {measurand.Unit}";
    }

    private static string Number(int count) => count.ToString(CultureInfo.InvariantCulture);

    // Two figures of the standard deviation.
    private static int Decimals(ControlLimits limits) => Math.Clamp(1 - (int)Math.Floor(Math.Log10(limits.StandardDeviation)), 0, 9);
}

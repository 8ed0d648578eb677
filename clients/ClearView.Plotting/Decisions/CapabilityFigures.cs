using System.Collections.Immutable;
using System.Globalization;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>The figures beside a histogram of capability.</summary>
internal static class CapabilityFigures
{
    private const double LeastProbability = 0.001;

    public static ImmutableArray<FigureModel> Of(Capability capability)
    {
        string unit = Wording.Suffix(capability.Unit);
        var box = ImmutableArray.CreateBuilder<FigureModel>();
        box.Add(new FigureModel("Readings", ""));
        box.Add(new FigureModel("n", capability.ReadingCount.ToString(CultureInfo.InvariantCulture)));
        if (capability.HasMean)
        {
            box.Add(new FigureModel("mean", Beside(capability.Mean, capability)));
        }

        if (capability.HasOverallStandardDeviation)
        {
            box.Add(new FigureModel("s, all readings", Digits.Two(capability.OverallStandardDeviation) + unit));
        }

        if (capability.HasWithinStandardDeviation)
        {
            box.Add(new FigureModel("s within", Digits.Two(capability.WithinStandardDeviation) + unit));
        }

        box.Add(new FigureModel("Indices (interval)", ""));
        foreach (CapabilityIndex index in capability.Indices)
        {
            box.Add(new FigureModel(index.Symbol, index.Interval is { } interval
                ? $"{Two(index.Value)} ({Two(interval.Lower)} to {Two(interval.Upper)})"
                : Two(index.Value)));
        }

        if (capability.Indices.Count == 0)
        {
            box.Add(new FigureModel("none", "refused"));
        }

        box.Add(new FigureModel("Beyond the limits", ""));
        if (capability.HasExpectedPpm)
        {
            box.Add(new FigureModel("expected", Ppm(capability.ExpectedPpm)));
        }

        if (capability.HasExpectedWithinPpm)
        {
            box.Add(new FigureModel("expected, s within", Ppm(capability.ExpectedWithinPpm)));
        }

        box.Add(new FigureModel("found", Ppm(capability.ObservedPpm)));
        box.Add(new FigureModel("Distribution", ""));
        box.Add(new FigureModel("model", Model(capability)));
        if (capability.Normality is { } normality)
        {
            box.Add(new FigureModel("normality, p", Probability(normality.PValueFraction)));
        }

        if (capability.Stability is { } stability)
        {
            box.Add(new FigureModel("process", stability.Stable ? "stable" : "not stable"));
        }

        return box.ToImmutable();
    }

    /// <summary>The index that speaks first, with its interval.</summary>
    public static string Headline(Capability capability)
    {
        string[] symbols = ["Cpk", "Ppk"];
        CapabilityIndex[] indices = [.. symbols.Select(symbol => capability.Indices.FirstOrDefault(index => index.Symbol == symbol)).OfType<CapabilityIndex>()];
        return $"{string.Join(", ", indices.Select(index => $"{index.Symbol} = {Two(index.Value)}").Append($"{capability.ReadingCount} readings"))}";
    }

    public static string Model(Capability capability) => capability.Model switch
    {
        CapabilityModel.Normal => "normal",
        CapabilityModel.BoxCox => capability.HasBoxCoxLambda ? $"Box-Cox, λ = {Wording.Number(capability.BoxCoxLambda)}" : "Box-Cox",
        CapabilityModel.Percentiles => "percentiles",
        _ => "none",
    };

    public static string Method(Capability capability)
    {
        string spread = capability.HasWithinStandardDeviation ? "Cp and Cpk rest on the spread within, Pp and Ppk on that of all readings" : "Pp and Ppk rest on the spread of all readings";
        string percentiles = capability is { HasPercentileLow: true, HasPercentileMedian: true, HasPercentileHigh: true }
            ? $" Percentiles 0.135 %, 50 %, 99.865 %: {Beside(capability.PercentileLow, capability)}, {Beside(capability.PercentileMedian, capability)}, {Beside(capability.PercentileHigh, capability)}."
            : "";
        return $"Method: ISO 22514-2; {spread}. Normality after Anderson and Darling.{percentiles}";
    }

    /// <summary>A value to two digits of the spread of all readings, with its unit.</summary>
    public static string Beside(double value, Capability capability) =>
        (capability.HasOverallStandardDeviation ? Digits.Beside(value, capability.OverallStandardDeviation) : Wording.Number(value)) + Wording.Suffix(capability.Unit);

    /// <summary>A probability; one that cannot matter is not printed to its last zero.</summary>
    public static string Probability(double fraction) =>
        fraction < LeastProbability ? "below 0.001" : fraction.ToString("0.000", CultureInfo.InvariantCulture);

    private static string Two(double value) => value.ToString("0.00", CultureInfo.InvariantCulture).Replace('-', '−');

    private static string Ppm(double ppm) => (ppm is > 0 and < 0.1 ? "below 0.1" : ppm.ToString(ppm < 100 ? "0.#" : "0", CultureInfo.InvariantCulture)) + " ppm";
}

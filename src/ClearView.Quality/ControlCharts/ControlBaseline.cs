using System.Diagnostics.CodeAnalysis;

using ClearView.Quality.Descriptive;

namespace ClearView.Quality.ControlCharts;

/// <summary>What a baseline gives: frozen limits, or the reason why there are none.</summary>
public sealed record ControlBaseline
{
    private ControlBaseline(ControlLimits? limits, string? refusal)
    {
        Limits = limits;
        Refusal = refusal;
    }

    /// <summary>Whether there are limits.</summary>
    [MemberNotNullWhen(true, nameof(Limits))]
    [MemberNotNullWhen(false, nameof(Refusal))]
    public bool HasLimits => Limits is not null;

    /// <summary>The limits; <see langword="null"/> where the baseline gives none.</summary>
    public ControlLimits? Limits { get; }

    /// <summary>Why there are none, in words.</summary>
    public string? Refusal { get; }

    /// <summary>From single readings: σ = mean moving range / d₂(2) (ISO 7870-2, individuals).</summary>
    /// <param name="readings">The readings in the order of measurement, 2 or more, finite.</param>
    public static ControlBaseline OfIndividuals(ReadOnlySpan<double> readings)
    {
        if (readings.Length < 2)
        {
            return Refuse(FormattableString.Invariant($"the baseline has {readings.Length} readings; limits need 2 or more"));
        }

        double first = readings[0];
        double sum = 0;
        double ranges = 0;
        double before = first;
        foreach (double reading in readings)
        {
            Finite.Check(reading, nameof(readings));
            sum += reading - first;
            ranges += Math.Abs(reading - before);
            before = reading;
        }

        double sigma = ranges / (readings.Length - 1) / ChartFactors.Of(2).MeanOfRange;
        return sigma > 0
            ? Give(new ControlLimits(ControlChartKind.Individuals, first + (sum / readings.Length), sigma, "mean moving range / d2", readings.Length, 1))
            : NoSpread();
    }

    /// <summary>From subgroups, of equal or unequal size (ISO 7870-2, averages).</summary>
    /// <param name="kind">With range, or with standard deviation.</param>
    /// <param name="subgroups">The subgroups, each of 2 readings or more (with range: 25 at most).</param>
    /// <remarks>
    /// σ is the mean of R/d₂ (or s/c₄) weighted with 1/variance, i.e. d₂²/d₃² (or c₄²/(1 − c₄²)); with equal sizes that is the
    /// mean range over d₂ (or the mean standard deviation over c₄). The centre line is the mean of all readings.
    /// </remarks>
    /// <exception cref="ArgumentOutOfRangeException">The kind is no chart of averages.</exception>
    public static ControlBaseline OfSubgroups(ControlChartKind kind, ReadOnlySpan<Subgroup> subgroups)
    {
        bool range = kind == ControlChartKind.AveragesWithRange;
        if (!range && kind != ControlChartKind.AveragesWithStandardDeviation)
        {
            throw new ArgumentOutOfRangeException(nameof(kind), kind, "expected a chart of averages.");
        }

        if (subgroups.Length < 2)
        {
            return Refuse(FormattableString.Invariant($"the baseline has {subgroups.Length} subgroups; limits need 2 or more"));
        }

        double weights = 0;
        double spread = 0;
        double sum = 0;
        long readings = 0;
        foreach (Subgroup one in subgroups)
        {
            Finite.Check(one.Mean, nameof(subgroups));
            if (one.Size < 2 || (range && one.Size > ChartFactors.LargestRangeSize))
            {
                return Refuse(FormattableString.Invariant(
                    $"a subgroup has {one.Size} readings; expected 2 {(range ? "to 25, beyond which the standard deviation is used" : "or more")}"));
            }

            double mean = range ? ChartFactors.Of(one.Size).MeanOfRange : ChartFactors.C4(one.Size);
            double deviation = range ? ChartFactors.Of(one.Size).DeviationOfRange : Math.Sqrt(1 - (mean * mean));
            double weight = mean * mean / (deviation * deviation);
            weights += weight;
            spread += weight * (range ? one.Range : one.StandardDeviation) / mean;
            sum += one.Size * (one.Mean - subgroups[0].Mean);
            readings += one.Size;
        }

        double sigma = spread / weights;
        return sigma > 0
            ? Give(new ControlLimits(
                kind,
                subgroups[0].Mean + (sum / readings),
                sigma,
                range ? "mean range / d2" : "mean standard deviation / c4",
                subgroups.Length,
                UsualSize(subgroups)))
            : NoSpread();
    }

    private static int UsualSize(ReadOnlySpan<Subgroup> subgroups)
    {
        Dictionary<int, int> counts = [];
        int usual = subgroups[0].Size;
        foreach (Subgroup one in subgroups)
        {
            counts[one.Size] = counts.GetValueOrDefault(one.Size) + 1;
            usual = counts[one.Size] > counts.GetValueOrDefault(usual) ? one.Size : usual;
        }

        return usual;
    }

    private static ControlBaseline Give(ControlLimits limits) => new(limits, null);

    private static ControlBaseline Refuse(string why) => new(null, why);

    private static ControlBaseline NoSpread() =>
        Refuse("the readings of the baseline do not differ within subgroups: there is no spread to take limits from (is the resolution too coarse?)");
}

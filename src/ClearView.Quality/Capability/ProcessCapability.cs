using System.Collections.Immutable;

using ClearView.Quality.ControlCharts;
using ClearView.Quality.Descriptive;

using MathNet.Numerics.Distributions;

namespace ClearView.Quality.Capability;

/// <summary>Capability and performance of a process (ISO 22514-1, ISO 22514-2; NIST/SEMATECH e-Handbook 6.1.6).</summary>
public static class ProcessCapability
{
    /// <summary>Fewest readings that indices are given for.</summary>
    public const int LeastReadings = 10;

    /// <summary>Most readings that model and normality are looked at; of more, evenly spaced ones are.</summary>
    public const int MostForModel = 5000;

    /// <summary>Computes it. What stands in the way leads to a refusal with the reason, never to an exception.</summary>
    /// <param name="readings">The readings in the order of measurement, finite.</param>
    /// <param name="limits">The limits.</param>
    /// <param name="options">How; the defaults where none are given.</param>
    /// <exception cref="ArgumentException">A reading is not finite, or an option is outside its range.</exception>
    public static CapabilityResult Of(ReadOnlySpan<double> readings, CapabilityLimits limits, CapabilityOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(limits);
        options ??= new CapabilityOptions();
        options.Check();
        CapabilityResult result = new(readings.Length, limits) { ObservedPpm = Observed(readings, limits) };
        if (readings.Length > 0)
        {
            Moments moments = Moments.Of(readings);
            result = result with { Mean = moments.Mean, OverallStandardDeviation = moments.StandardDeviation };
        }

        int least = Math.Max(LeastReadings, 2 * options.SubgroupSize);
        if (readings.Length < least)
        {
            return Refuse(result, CapabilityRefusalReason.TooFewReadings, FormattableString.Invariant($"{readings.Length} readings; a capability needs {least} or more"));
        }

        if (readings.IndexOfAnyExcept(readings[0]) < 0 || WithinSpread.Of(readings, options.SubgroupSize) is not { } within)
        {
            return Refuse(result, CapabilityRefusalReason.NoSpread, "the readings do not differ (within subgroups): an index would be infinite; is the resolution too coarse?");
        }

        ReadOnlySpan<double> sample = Spaced(readings);
        AndersonDarling? normality = AndersonDarling.Of(sample);
        bool asNormal = options.Model == CapabilityModel.Normal
            || (options.Model == CapabilityModel.Automatic && !(normality?.PValue < options.NormalityLevel));
        bool asPercentiles = options.Model == CapabilityModel.Percentiles;
        TransformedReadings transformed = asNormal || asPercentiles
            ? TransformedReadings.None("")
            : TransformedReadings.Of(readings, sample, limits, options);

        // Limits of a control chart are meant for normal readings: where a transformation makes them so, stability is looked at there.
        WithinSpread charted = (transformed.Transformation is null ? null : WithinSpread.Of(transformed.Readings, options.SubgroupSize)) ?? within;
        StabilityFinding stability = StabilityFinding.Of(
            charted.Limits, ReferenceEquals(charted, within) ? readings : transformed.Readings, options.SubgroupSize);
        result = result with
        {
            WithinStandardDeviation = within.StandardDeviation,
            WithinDegreesOfFreedom = within.DegreesOfFreedom,
            ControlLimits = charted.Limits,
            Stability = stability,
            Normality = normality,
            Remarks = Remarks(readings, sample, stability, options),
        };
        if (!stability.IsStable && !options.EvenIfUnstable)
        {
            return Refuse(result, CapabilityRefusalReason.Unstable, Unstable(stability));
        }

        return asNormal ? WithNormal(result, options.ConfidenceLevel)
            : transformed.Transformation is { } transformation ? WithBoxCox(result, transformation, transformed.Readings, options.ConfidenceLevel)
            : options.Model != CapabilityModel.BoxCox && readings.Length >= Percentiles.LeastReadings ? WithPercentiles(result, Percentiles.Of(readings))
            : Refuse(result, CapabilityRefusalReason.NoModelFits, NoModel(result, transformed.Why, options));
    }

    private static string NoModel(CapabilityResult result, string why, CapabilityOptions options)
    {
        string[] reasons =
        [
            .. options.Model == CapabilityModel.Automatic
                ? [FormattableString.Invariant($"the readings are not normal (Anderson-Darling p = {result.Normality?.PValue:0.####})")]
                : Array.Empty<string>(),
            .. why.Length > 0 ? [why] : Array.Empty<string>(),
            .. options.Model != CapabilityModel.BoxCox
                ? [FormattableString.Invariant($"percentiles need {Percentiles.LeastReadings} readings, there are {result.Count}")]
                : Array.Empty<string>(),
        ];
        return string.Join("; ", reasons);
    }

    private static CapabilityResult WithNormal(CapabilityResult result, double level)
    {
        (double? lower, double? upper, double? target) = (result.Limits.Lower, result.Limits.Upper, result.Limits.Target);
        double within = result.WithinStandardDeviation;
        double overall = result.OverallStandardDeviation;
        double nearest = Nearest(result.Limits, result.Mean);
        int n = result.Count;
        return result with
        {
            Model = CapabilityModel.Normal,
            ModelMean = result.Mean,
            ModelStandardDeviation = overall,
            Cp = upper - lower is { } a ? IndexIntervals.Spread(a / (6 * within), result.WithinDegreesOfFreedom, level) : null,
            Pp = upper - lower is { } b ? IndexIntervals.Spread(b / (6 * overall), n - 1, level) : null,
            Cpk = IndexIntervals.Located(nearest / (3 * within), n, result.WithinDegreesOfFreedom, level),
            Ppk = IndexIntervals.Located(nearest / (3 * overall), n, n - 1, level),
            Cpm = upper - lower is { } c && target is { } aim
                ? IndexIntervals.Target(c / (6 * Math.Sqrt((overall * overall) + ((result.Mean - aim) * (result.Mean - aim)))), n, (result.Mean - aim) / overall, level)
                : null,
            ExpectedPpm = Expected(result.Limits, result.Mean, overall),
            ExpectedWithinPpm = Expected(result.Limits, result.Mean, within),
        };
    }

    // ISO 22514-2: the transformed readings are normal, the transformed limits are held against them.
    private static CapabilityResult WithBoxCox(CapabilityResult result, BoxCox transformation, ReadOnlySpan<double> transformed, double level)
    {
        Moments moments = Moments.Of(transformed);
        CapabilityLimits limits = new(
            result.Limits.Lower is { } lower ? transformation.Transform(lower) : null,
            result.Limits.Upper is { } upper ? transformation.Transform(upper) : null);
        double s = moments.StandardDeviation;
        return result with
        {
            Model = CapabilityModel.BoxCox,
            Transformation = transformation,
            ModelMean = moments.Mean,
            ModelStandardDeviation = s,
            Percentiles = new Percentiles(
                transformation.Invert(moments.Mean - (3 * s)), transformation.Invert(moments.Mean), transformation.Invert(moments.Mean + (3 * s))),
            Pp = limits.Upper - limits.Lower is { } width ? IndexIntervals.Spread(width / (6 * s), result.Count - 1, level) : null,
            Ppk = IndexIntervals.Located(Nearest(limits, moments.Mean) / (3 * s), result.Count, result.Count - 1, level),
            ExpectedPpm = Expected(limits, moments.Mean, s),
        };
    }

    // ISO 22514-2: the percentiles stand for mean ± 3σ; no interval, since the outer ones rest on few readings.
    private static CapabilityResult WithPercentiles(CapabilityResult result, Percentiles percentiles)
    {
        double Side(double distance, double spread) => spread > 0 ? distance / spread : double.NaN;
        double above = result.Limits.Upper is { } upper ? Side(upper - percentiles.Median, percentiles.High - percentiles.Median) : double.PositiveInfinity;
        double below = result.Limits.Lower is { } lower ? Side(percentiles.Median - lower, percentiles.Median - percentiles.Low) : double.PositiveInfinity;
        double ppk = Math.Min(above, below);
        return double.IsNaN(ppk)
            ? Refuse(result, CapabilityRefusalReason.NoSpread, "the outer percentiles and the median are the same: is the resolution too coarse?")
            : result with
            {
                Model = CapabilityModel.Percentiles,
                Percentiles = percentiles,
                Pp = result.Limits.Upper - result.Limits.Lower is { } width ? new CapabilityIndex(width / (percentiles.High - percentiles.Low), null, null) : null,
                Ppk = new CapabilityIndex(ppk, null, null),
            };
    }

    private static double Nearest(CapabilityLimits limits, double mean) =>
        Math.Min(limits.Upper - mean ?? double.PositiveInfinity, mean - limits.Lower ?? double.PositiveInfinity);

    private static double Expected(CapabilityLimits limits, double mean, double deviation) =>
        1e6 * ((limits.Lower is { } lower ? Normal.CDF(0, 1, (lower - mean) / deviation) : 0)
            + (limits.Upper is { } upper ? Normal.CDF(0, 1, (mean - upper) / deviation) : 0));

    private static double Observed(ReadOnlySpan<double> readings, CapabilityLimits limits)
    {
        long beyond = 0;
        double lower = limits.Lower ?? double.NegativeInfinity;
        double upper = limits.Upper ?? double.PositiveInfinity;
        foreach (double reading in readings)
        {
            Finite.Check(reading, nameof(readings));
            beyond += reading < lower || reading > upper ? 1 : 0;
        }

        return readings.IsEmpty ? 0 : 1e6 * beyond / readings.Length;
    }

    // Readings that model and normality are looked at.
    internal static ReadOnlySpan<double> Spaced(ReadOnlySpan<double> readings)
    {
        if (readings.Length <= MostForModel)
        {
            return readings;
        }

        double[] sample = new double[MostForModel];
        for (int i = 0; i < MostForModel; i++)
        {
            sample[i] = readings[(int)((long)i * readings.Length / MostForModel)];
        }

        return sample;
    }

    private static ImmutableArray<string> Remarks(ReadOnlySpan<double> readings, ReadOnlySpan<double> sample, StabilityFinding stability, CapabilityOptions options)
    {
        ImmutableArray<string>.Builder remarks = ImmutableArray.CreateBuilder<string>();
        if (sample.Length < readings.Length)
        {
            remarks.Add(FormattableString.Invariant($"normality was tested on {sample.Length} evenly spaced of {readings.Length} readings"));
        }

        // Where indices are refused for it, the refusal says so.
        if (!stability.IsStable && options.EvenIfUnstable)
        {
            remarks.Add($"{Unstable(stability)}; the indices describe these readings and foretell nothing");
        }

        if (AutocorrelationCheck.Of(readings)?.CautionOn(options.SubgroupSize > 1 ? "limits from the spread within subgroups" : "limits from the moving range") is { } caution)
        {
            remarks.Add(caution);
        }

        return remarks.ToImmutable();
    }

    private static string Unstable(StabilityFinding found) => FormattableString.Invariant(
        $"the process is not stable: {found.BeyondLimits} points beyond the control limits ({found.AllowedBeyondLimits} expected at most), {found.Runs} {(found.Runs == 1 ? "run" : "runs")} of nine on one side ({found.AllowedRuns} at most), {found.SpreadBeyondLimits} ranges beyond their limits");

    private static CapabilityResult Refuse(CapabilityResult result, CapabilityRefusalReason reason, string why) =>
        result with { Refusal = new CapabilityRefusal(reason, why) };
}

using ClearView.Optics.Evaluations;
using ClearView.Quality.Capability;

namespace ClearView.Contract.Studies;

/// <summary>Writes a capability to the wire.</summary>
internal static class CapabilityWriter
{
    public static V1.Capability Write(Measurand measurand, V1.SeriesLimits limits, CapabilityResult result, Histogram histogram)
    {
        var wire = new V1.Capability
        {
            Measurand = measurand.Id,
            Name = measurand.Name,
            Unit = measurand.Unit,
            Limits = limits.Clone(),
            ReadingCount = (ulong)result.Count,
            Refusal = result.Refusal?.Explanation ?? "",
            Stability = result.Stability is { } stability ? Write(stability) : null,
            Normality = result.Normality is { } normality ? Write(normality) : null,
            Model = result.Refusal is null ? Write(result.Model) : V1.CapabilityModel.Unspecified,
            ObservedPpm = result.ObservedPpm,
            Indices = { Indices(result) },
            Remarks = { result.Remarks },
            Histogram = { Bins(histogram) },
            FittedBinCount = { histogram.Expected(result) },
        };
        WriteMoments(wire, result);
        WriteModel(wire, result);
        return wire;
    }

    private static void WriteMoments(V1.Capability wire, CapabilityResult result)
    {
        if (double.IsFinite(result.Mean))
        {
            wire.Mean = result.Mean;
        }

        if (double.IsFinite(result.OverallStandardDeviation))
        {
            wire.OverallStandardDeviation = result.OverallStandardDeviation;
        }

        if (double.IsFinite(result.WithinStandardDeviation))
        {
            wire.WithinStandardDeviation = result.WithinStandardDeviation;
        }
    }

    private static void WriteModel(V1.Capability wire, CapabilityResult result)
    {
        if (result.Transformation is { } transformation)
        {
            wire.BoxCoxLambda = transformation.Lambda;
        }

        if (result.Percentiles is { } percentiles)
        {
            WritePercentiles(wire, percentiles);
        }

        if (result.ExpectedPpm is { } expected)
        {
            wire.ExpectedPpm = expected;
        }

        if (result.ExpectedWithinPpm is { } within)
        {
            wire.ExpectedWithinPpm = within;
        }
    }

    // Three standard deviations from the mean there may be no value that is transformed to it.
    private static void WritePercentiles(V1.Capability wire, Percentiles percentiles)
    {
        if (double.IsFinite(percentiles.Low))
        {
            wire.PercentileLow = percentiles.Low;
        }

        if (double.IsFinite(percentiles.Median))
        {
            wire.PercentileMedian = percentiles.Median;
        }

        if (double.IsFinite(percentiles.High))
        {
            wire.PercentileHigh = percentiles.High;
        }
    }

    private static IEnumerable<V1.CapabilityIndex> Indices(CapabilityResult result)
    {
        (string Symbol, CapabilityIndex? Index)[] all =
            [("Cp", result.Cp), ("Cpk", result.Cpk), ("Pp", result.Pp), ("Ppk", result.Ppk), ("Cpm", result.Cpm)];
        foreach ((string symbol, CapabilityIndex? index) in all)
        {
            if (index is not null)
            {
                yield return new V1.CapabilityIndex
                {
                    Symbol = symbol,
                    Value = index.Value,
                    Interval = index is { Lower: { } lower, Upper: { } upper } ? new V1.ValueInterval { Lower = lower, Upper = upper } : null,
                };
            }
        }
    }

    private static V1.Stability Write(StabilityFinding stability) => new()
    {
        Stable = stability.IsStable,
        BeyondLimitsCount = (ulong)stability.BeyondLimits,
        AllowedBeyondLimitsCount = (ulong)stability.AllowedBeyondLimits,
        RunCount = (ulong)stability.Runs,
        AllowedRunCount = (ulong)stability.AllowedRuns,
        SpreadBeyondLimitsCount = (ulong)stability.SpreadBeyondLimits,
    };

    private static V1.NormalityTest Write(AndersonDarling normality) => new()
    {
        ReadingCount = (ulong)normality.Count,
        Statistic = normality.Statistic,
        PValueFraction = normality.PValue,
    };

    private static V1.CapabilityModel Write(CapabilityModel model) => model switch
    {
        CapabilityModel.Normal => V1.CapabilityModel.Normal,
        CapabilityModel.BoxCox => V1.CapabilityModel.BoxCox,
        CapabilityModel.Percentiles => V1.CapabilityModel.Percentiles,
        _ => V1.CapabilityModel.Unspecified,
    };

    private static IEnumerable<V1.HistogramBin> Bins(Histogram histogram) => histogram.Counts.Select((count, bin) => new V1.HistogramBin
    {
        Lower = histogram.EdgeOf(bin),
        Upper = histogram.EdgeOf(bin + 1),
        ReadingCount = (ulong)count,
    });
}

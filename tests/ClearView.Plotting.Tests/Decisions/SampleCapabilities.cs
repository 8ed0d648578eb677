using ClearView.V1;

namespace ClearView.Plotting.Tests.Decisions;

/// <summary>Capabilities of invented readings.</summary>
internal static class SampleCapabilities
{
    public static Capability Normal(SeriesLimits limits)
    {
        const double Mean = 2.4;
        const double Spread = 0.12;
        var capability = new Capability
        {
            Measurand = "haze",
            Name = "Haze",
            Unit = "%",
            Limits = limits,
            ReadingCount = 500,
            Mean = Mean,
            OverallStandardDeviation = Spread,
            WithinStandardDeviation = 0.114,
            Model = CapabilityModel.Normal,
            Stability = new Stability { Stable = true },
            Normality = new NormalityTest { ReadingCount = 500, Statistic = 0.41, PValueFraction = 0.342 },
            ExpectedPpm = 1350,
            ExpectedWithinPpm = 0.04,
            ObservedPpm = 2000,
        };
        var noise = new Noise(1);
        double[] values = [.. Enumerable.Range(0, 500).Select(_ => Mean + (Spread * noise.Next()))];
        for (int i = 0; i < 14; i++)
        {
            (double lower, double upper) = (2 + (0.06 * i), 2 + (0.06 * (i + 1)));
            capability.Histogram.Add(new HistogramBin { Lower = lower, Upper = upper, ReadingCount = (ulong)values.Count(value => value >= lower && value < upper) });
            double z = (((lower + upper) / 2) - Mean) / Spread;
            capability.FittedBinCount.Add(500 * 0.06 / Spread * Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI));
        }

        string[] symbols = ["Cp", "Cpk", "Pp", "Ppk", "Cpm"];
        capability.Indices.Add(symbols.Select((symbol, i) => new CapabilityIndex
        {
            Symbol = symbol,
            Value = 1.4 - (0.07 * i),
            Interval = symbol == "Cpm" ? null : new ValueInterval { Lower = 1.3 - (0.07 * i), Upper = 1.5 - (0.07 * i) },
        }));
        return capability;
    }

    public static Capability Refused()
    {
        Capability capability = Normal(new SeriesLimits { Upper = 3 });
        capability.Refusal = "The process is not stable: 12 of 500 points lie beyond the limits of their own control chart, where 3 may by chance. Find the cause first.";
        capability.Indices.Clear();
        capability.FittedBinCount.Clear();
        capability.Model = CapabilityModel.Unspecified;
        capability.ClearExpectedPpm();
        capability.ClearExpectedWithinPpm();
        capability.Stability.Stable = false;
        return capability;
    }

    public static Capability WithoutReadings() => new()
    {
        Measurand = "haze",
        Name = "Haze",
        Unit = "%",
        Limits = new SeriesLimits { Upper = 3 },
        Refusal = "There is no reading.",
    };

    /// <summary>Limits and target so close together that their names cannot stand side by side.</summary>
    public static Capability Crowded() => Normal(new SeriesLimits { Lower = 2.37, Target = 2.41, Upper = 2.45 });
}

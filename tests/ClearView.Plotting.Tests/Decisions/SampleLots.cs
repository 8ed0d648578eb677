using ClearView.V1;

namespace ClearView.Plotting.Tests.Decisions;

/// <summary>Comparisons of invented lots.</summary>
internal static class SampleLots
{
    /// <summary>Lots with the same spread; the last lies apart.</summary>
    public static LotComparison Comparison(int lots = 4, int specimens = 12, bool longNames = false, bool aged = false, bool withBands = true)
    {
        var noise = new Noise(17);
        var comparison = new LotComparison { Measurand = "haze", Name = "Haze", Unit = "%", ConfidencePercent = 95 };
        comparison.Conclusion.Add($"The means of the {lots} lots are shown to differ (p below 0.001).");
        comparison.WelchAnova = new StatedTest { Statistic = 18.2, NumeratorDegreesOfFreedom = lots - 1, DegreesOfFreedom = 20, PValueFraction = 2e-5 };
        comparison.KruskalWallis = new StatedTest { Statistic = 21.4, DegreesOfFreedom = lots - 1, PValueFraction = 0.0012 };
        if (withBands)
        {
            comparison.EquivalenceMargin = 0.2;
            comparison.InstrumentExpandedUncertainty = 0.05;
        }

        for (int i = 0; i < lots; i++)
        {
            string name = longNames ? $"Lot 2026-03-{i:00} of the second resin grade, line {i % 3}, after the filter change" : $"L-{100 + i}";
            comparison.Lots.Add(Lot(name, 2.4 + (i == lots - 1 ? 0.35 : 0.02 * i), specimens, noise, aged));
        }

        for (int i = 0; i < lots; i++)
        {
            for (int j = i + 1; j < lots; j++)
            {
                comparison.Pairs.Add(Pair(comparison.Lots[i], comparison.Lots[j], withBands));
            }
        }

        if (aged)
        {
            comparison.Ageing = new AgeingComparison();
            comparison.Ageing.Slopes.Add(comparison.Lots.Select((lot, i) => new AgeingSlope
            {
                Lot = lot.Lot,
                Initial = lot.Mean - 0.1,
                SlopePerH = 0.0004 + (0.0001 * i),
                Interval = new ValueInterval { Lower = 0.0003 + (0.0001 * i), Upper = 0.0005 + (0.0001 * i) },
            }));
        }

        return comparison;
    }

    private static LotSummary Lot(string name, double mean, int specimens, Noise noise, bool aged)
    {
        double[] values = [.. Enumerable.Range(0, specimens).Select(i => mean + (0.1 * noise.Next()) + (i == 3 && specimens > 10 ? 0.5 : 0))];
        double[] ranked = [.. values.Order()];
        var lot = new LotSummary
        {
            Lot = name,
            SpecimenCount = (uint)specimens,
            Mean = values.Average(),
            Minimum = ranked[0],
            LowerQuartile = ranked[specimens / 4],
            Median = ranked[specimens / 2],
            UpperQuartile = ranked[3 * specimens / 4],
            Maximum = ranked[^1],
        };
        lot.Value.Add(values);
        if (specimens > 1)
        {
            lot.MeanInterval = new ValueInterval { Lower = lot.Mean - 0.06, Upper = lot.Mean + 0.06 };
            lot.StandardDeviation = 0.1;
        }

        if (specimens > 10)
        {
            lot.Outlier = new LotOutlier { PositionCount = 4, Value = values[3], GrubbsStatistic = 2.9, PValueFraction = 0.003 };
        }

        if (aged)
        {
            lot.AgeingHours.Add(Enumerable.Range(0, specimens).Select(i => 100.0 * (i % 6)));
        }

        return lot;
    }

    private static LotPair Pair(LotSummary first, LotSummary second, bool withBands)
    {
        double difference = first.Mean - second.Mean;
        var pair = new LotPair
        {
            First = first.Lot,
            Second = second.Lot,
            Difference = difference,
            Equivalent = withBands && Math.Abs(difference) + 0.1 < 0.2,
            GamesHowell = new StatedTest
            {
                Statistic = Math.Abs(difference) / 0.04,
                PValueFraction = Math.Abs(difference) > 0.13 ? 0.001 : 0.4,
                Interval = new ValueInterval { Lower = difference - 0.13, Upper = difference + 0.13 },
            },
        };
        if (withBands)
        {
            pair.SmallestTellable = 0.05 * Math.Sqrt(2);
        }

        return pair;
    }
}

using ClearView.Contract.Studies;
using ClearView.V1;

namespace ClearView.Contract.Tests.Studies;

/// <summary>Comparisons of lots from request to answer.</summary>
public class LotStudyTests
{
    // NIST StRD SiRstv with its certified values: F = 1.18046237440255, R² = 0.190999039051129, 4 and 20 degrees of freedom.
    [Fact]
    public void Compare_SiRstv_KeepsTheCertifiedFigures()
    {
        LotComparison comparison = Accepted(SiRstv());

        Assert.Equal(1.18046237440255, comparison.Anova.Statistic, 1e-11);
        Assert.Equal((4.0, 20.0), (comparison.Anova.NumeratorDegreesOfFreedom, comparison.Anova.DegreesOfFreedom));
        Assert.Equal(0.190999039051129, comparison.EtaSquaredFraction, 1e-12);
        Assert.Equal(5.11462616e-2 / 4 / (2.1663656e-1 / 20), comparison.Anova.Statistic, 1e-11);
        Assert.Equal(2.1663656e-1 / 20, comparison.Variance.WithinLots, 1e-12);

        // Balanced lots, by hand: (MSB − MSW)/n.
        Assert.Equal(((5.11462616e-2 / 4) - (2.1663656e-1 / 20)) / 5, comparison.Variance.BetweenLots, 1e-12);
        Assert.Equal(0, comparison.Variance.BetweenShareInterval.Lower);
        Assert.Equal(10, comparison.Pairs.Count);
        Assert.Equal(95, comparison.ConfidencePercent);
        Assert.Equal(("haze", "%"), (comparison.Measurand, comparison.Unit));
        Assert.All(comparison.Pairs, pair => Assert.Equal("", pair.Welch.Refusal + pair.TukeyKramer.Refusal + pair.GamesHowell.Refusal));
        Assert.Null(comparison.Ageing);
        Assert.False(comparison.HasEquivalenceMargin);
        Assert.NotEmpty(comparison.Conclusion);

        // Mean of instrument 1 of the set, by hand: 981.2154/5; the third of five sorted values is their median.
        LotSummary first = comparison.Lots[0];
        Assert.Equal(981.2154 / 5, first.Mean, 1e-10);
        Assert.Equal((5u, 196.1240, 196.2569, 196.3403), (first.SpecimenCount, first.Minimum, first.Median, first.Maximum));
        Assert.Equal((196.1890, 196.3052), (first.LowerQuartile, first.UpperQuartile));
        Assert.Equal([196.3052, 196.1240, 196.1890, 196.2569, 196.3403], first.Value);
        Assert.True(first.HasStandardDeviation && first.MeanInterval.Lower < first.Mean && first.Mean < first.MeanInterval.Upper);
    }

    // NIST StRD SmLs09 (Simon and Lesage 1989), nine lots of 2001 with twelve leading digits in common: F is certified as 2001. Doubles
    // store 10¹² + 0.3 to 5e-5 against deviations of 0.1, which leaves 2e-3.
    [Fact]
    public void Compare_SmLs09_KeepsTheCertifiedF()
    {
        LotTable table = new() { Measurand = "haze" };
        foreach ((int index, double centre) in new[] { 0.4, 0.3, 0.5, 0.3, 0.5, 0.3, 0.5, 0.3, 0.5 }.Index())
        {
            table.Lots.Add(new LotValues
            {
                Lot = $"lot {index}",
                Value = { 1e12 + centre, Enumerable.Range(0, 2000).Select(i => 1e12 + centre + (i % 2 == 0 ? -0.1 : 0.1)) },
            });
        }

        LotComparison comparison = Accepted(new CompareLotsRequest { Given = new GivenLots { Tables = { table } } });

        Assert.Equal(1, comparison.Anova.Statistic / 2001, 2e-3);
        Assert.Equal(18_000, comparison.Anova.DegreesOfFreedom);
    }

    // NIST/SEMATECH e-Handbook 1.3.5.17.1 (Tietjen and Moore 1972): G = 2.468765 for the eighth reading; from memory.
    [Fact]
    public void Compare_PublishedOutlier_IsNamedFromOne()
    {
        LotComparison comparison = Accepted(Lots(("spectrometer", [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57]), ("other", [200, 201, 202])));

        Assert.Equal(8u, comparison.Lots[0].Outlier.PositionCount);
        Assert.Equal(245.57, comparison.Lots[0].Outlier.Value);
        Assert.Equal(2.468765, comparison.Lots[0].Outlier.GrubbsStatistic, 0.0000006);
        Assert.InRange(comparison.Lots[0].Outlier.PValueFraction, 0, 0.001);
        Assert.Null(comparison.Lots[1].Outlier);
        Assert.Equal(8u, comparison.Lots[0].SpecimenCount);
    }

    // By hand: 1, 2, 3 against 2, 3, 4. Means 1 apart, s = 1 each, so that t = −1/√(2/3) with 4 degrees of freedom, q = √2·|t|;
    // ranks 1, 2.5, 4.5 and 2.5, 4.5, 6 give H = 12/42 · (8² + 13²)/3 − 21 = 1.190 over 1 − 12/210.
    [Fact]
    public void Compare_TwoLots_ByHand()
    {
        CompareLotsRequest request = Lots(("A", [1, 2, 3]), ("B", [2, 3, 4]));
        request.Options = new LotComparisonOptions
        {
            Margins = { new MeasurandMargin { Measurand = "haze", Margin = 5, InstrumentExpandedUncertainty = 1 } },
        };

        LotComparison comparison = Accepted(request);

        LotPair pair = Assert.Single(comparison.Pairs);
        Assert.Equal(("A", "B", -1.0), (pair.First, pair.Second, pair.Difference));
        Assert.Equal(-1 / Math.Sqrt(2.0 / 3), pair.Welch.Statistic, 1e-12);
        Assert.Equal(4, pair.Welch.DegreesOfFreedom, 1e-12);
        // t(0.975; 4) = 2.7764, t(0.95; 4) = 2.1318, tables.
        Assert.Equal(-1 + (2.7764 * Math.Sqrt(2.0 / 3)), pair.Welch.Interval.Upper, 1e-4);
        Assert.Equal(Math.Sqrt(3), pair.TukeyKramer.Statistic, 1e-12);
        Assert.Equal(Math.Sqrt(3), pair.GamesHowell.Statistic, 1e-12);
        // Two lots: the adjusted interval is that of the t test itself.
        Assert.Equal(pair.Welch.Interval.Upper, pair.GamesHowell.Interval.Upper, 1e-6);
        Assert.Equal(4 / Math.Sqrt(2.0 / 3), pair.Equivalence.Statistic, 1e-12);
        Assert.Equal(-1 - (2.1318 * Math.Sqrt(2.0 / 3)), pair.Equivalence.Interval.Lower, 1e-4);
        Assert.True(pair.Equivalent);
        Assert.Equal(Math.Sqrt(2), pair.SmallestTellable, 1e-12);
        // Hedges' correction for 4 degrees of freedom is Γ(2)/(√2 Γ(3/2)) = 0.797885.
        Assert.Equal(-0.797885, pair.HedgesG, 1e-6);
        Assert.True(pair.HedgesGInterval.Lower < pair.HedgesG && pair.HedgesG < pair.HedgesGInterval.Upper);
        // 17 per lot show one standard deviation with 80 % (Cohen 1988, from memory).
        Assert.Equal(17u, pair.DifferenceSpecimenCount);
        Assert.True(pair.HasEquivalenceSpecimenCount);
        Assert.Equal(17u, comparison.NeededSpecimenCount);
        Assert.Equal(1.5, comparison.Anova.Statistic, 1e-12);
        Assert.Equal(1.5, comparison.WelchAnova.Statistic, 1e-12);
        Assert.Equal(((12.0 / 42 * ((8.0 * 8) + (13.0 * 13)) / 3) - 21) / (1 - (12.0 / 210)), comparison.KruskalWallis.Statistic, 1e-12);
        Assert.Equal((0.0, 1.0), (comparison.KruskalWallis.NumeratorDegreesOfFreedom, comparison.KruskalWallis.DegreesOfFreedom));
        Assert.Equal((5.0, 1.0), (comparison.EquivalenceMargin, comparison.InstrumentExpandedUncertainty));
        Assert.Contains(comparison.Conclusion, sentence => sentence.Contains("equivalent within 5.00 %", StringComparison.Ordinal));
    }

    // By hand: 2 + 0.001·t and 2 + 0.003·t with the same scatter of ±0.1 about both lines.
    [Fact]
    public void Compare_Ageing_KeepsTheSlopes()
    {
        double[] hours = [0, 0, 500, 500, 1000, 1000];
        double[] scatter = [0.1, -0.1, 0.1, -0.1, 0.1, -0.1];
        CompareLotsRequest request = Lots(
            ("A", [.. hours.Zip(scatter, (time, off) => 2 + (0.001 * time) + off)]),
            ("B", [.. hours.Zip(scatter, (time, off) => 2 + (0.003 * time) + off)]));
        foreach (LotValues lot in request.Given.Tables[0].Lots)
        {
            lot.AgeingHours.AddRange(hours);
        }

        LotComparison comparison = Accepted(request);

        AgeingComparison ageing = comparison.Ageing;
        Assert.Equal("", ageing.Refusal);
        Assert.Equal([0.001, 0.003], ageing.Slopes.Select(slope => Math.Round(slope.SlopePerH, 12)));
        Assert.Equal(2, ageing.Slopes[0].Initial, 1e-12);
        // s² = 0.06/4, Σ(t − 500)² = 1e6, t(0.975; 4) = 2.7764.
        Assert.Equal(0.001 + (2.7764 * Math.Sqrt(0.06 / 4 / 1e6)), ageing.Slopes[0].Interval.Upper, 1e-8);
        // F = (Σ(t − 500)²·2·0.001²) / (0.12/8).
        Assert.Equal(1e6 * 2e-6 / (0.12 / 8), ageing.EqualSlopes.Statistic, 1e-6);
        SlopePair pair = Assert.Single(ageing.Pairs);
        Assert.Equal(-0.002, pair.DifferencePerH, 1e-12);
        Assert.True(pair.Test.Interval.Upper < 0);
        Assert.Equal(hours, comparison.Lots[1].AgeingHours);
    }

    [Fact]
    public void Compare_AgeingOfOneLotOnly_IsStated()
    {
        CompareLotsRequest request = Lots(("A", [1, 2]), ("B", [1, 3]));
        request.Given.Tables[0].Lots[0].AgeingHours.AddRange([0, 100]);

        LotComparison comparison = Accepted(request);

        Assert.Contains("Lot B", comparison.Ageing.Refusal, StringComparison.Ordinal);
        Assert.Empty(comparison.Ageing.Slopes);
        Assert.Null(comparison.Ageing.EqualSlopes);
    }

    [Fact]
    public void Compare_NoSpread_IsStatedEverywhere()
    {
        LotComparison comparison = Accepted(Lots(("A", [2, 2, 2]), ("B", [3, 3, 3])));

        Assert.All(
            [comparison.Anova, comparison.WelchAnova, comparison.Pairs[0].Welch, comparison.Pairs[0].TukeyKramer, comparison.Pairs[0].GamesHowell],
            test => Assert.True(test.Refusal.Length > 0 && test.Statistic == 0 && test.Interval is null));
        Assert.Null(comparison.Variance);
        Assert.Null(comparison.Pairs[0].Equivalence);
        Assert.False(comparison.Pairs[0].HasHedgesG || comparison.HasNeededSpecimenCount || comparison.HasOmegaSquaredFraction);
        Assert.Equal(1, comparison.EtaSquaredFraction);
        Assert.Equal(0, comparison.Lots[0].StandardDeviation);
    }

    [Fact]
    public void Compare_SingleSpecimens_HaveNoSpread()
    {
        LotComparison comparison = Accepted(Lots(("A", [2]), ("B", [3])));

        Assert.Contains("one specimen only", comparison.Anova.Refusal, StringComparison.Ordinal);
        Assert.False(comparison.Lots[0].HasStandardDeviation);
        Assert.Null(comparison.Lots[0].MeanInterval);
    }

    [Fact]
    public void Compare_OneLot_IsRefused() => Assert.Equal(["given.tables[0].lots"], Faults(Lots(("A", [1, 2]))));

    [Fact]
    public void Compare_MoreThanTwentyLots_AreRefused()
    {
        Assert.Equal(["given.tables[0].lots"], Faults(Lots([.. Enumerable.Range(0, 21).Select(i => ($"{i}", new[] { 1.0, 2 }))])));
        Assert.Equal(20, Accepted(Lots([.. Enumerable.Range(0, 20).Select(i => ($"{i}", new[] { 1.0, 2 }))])).Lots.Count);
    }

    [Fact]
    public void Compare_EveryFieldAtFault_IsNamedAtOnce()
    {
        CompareLotsRequest request = Lots(("A", [1, double.NaN]), ("A", []), ("", [1]));
        LotTable table = request.Given.Tables[0];
        table.Lots[0].AgeingHours.AddRange([-1]);
        request.Given.Tables.Add(new LotTable { Measurand = "haze", Lots = { table.Lots[0].Clone() } });
        request.Options = new LotComparisonOptions
        {
            ConfidencePercent = 50,
            PowerPercent = 100,
            Margins =
            {
                new MeasurandMargin { Measurand = "haze", Margin = 0, InstrumentExpandedUncertainty = -1 },
                new MeasurandMargin { Measurand = "haze", Margin = 1 },
                new MeasurandMargin { Measurand = "gloss", Margin = 1 },
            },
        };

        Assert.Equal(
            [
                "given.tables[0].lots[1].lot", "given.tables[0].lots[2].lot", "given.tables[0].lots[0].value[1]", "given.tables[0].lots[0].ageing_hours",
                "given.tables[0].lots[0].ageing_hours[0]", "given.tables[0].lots[1].value", "given.tables[1].measurand", "given.tables[1].lots",
                "given.tables[1].lots[0].value[1]", "given.tables[1].lots[0].ageing_hours", "given.tables[1].lots[0].ageing_hours[0]",
                "options.confidence_percent", "options.power_percent", "options.margins[0].margin", "options.margins[0].instrument_expanded_uncertainty",
                "options.margins[1].measurand", "options.margins[2].measurand",
            ],
            Faults(request));
    }

    [Fact]
    public void Compare_NothingOrStored_IsRefusedWithoutAServer()
    {
        Assert.Equal(["stored"], Faults(new CompareLotsRequest()));
        Assert.Equal(["given.tables"], Faults(new CompareLotsRequest { Given = new GivenLots() }));
        Assert.Equal(["stored"], Faults(new CompareLotsRequest { Stored = new StoredLots { Lots = { "A", "B" }, Measurands = { "haze" } } }));
        Assert.Equal(
            ["stored.lots[1]", "stored.span.measured_from", "stored.measurands[1]", "stored.measurands[2]", "stored"],
            Faults(new CompareLotsRequest
            {
                Stored = new StoredLots
                {
                    Lots = { "A", "A" },
                    Measurands = { "haze", "haze", "gloss" },
                    Span = new MeasuredSpan { MeasuredFrom = new Google.Protobuf.WellKnownTypes.Timestamp { Nanos = -1 } },
                },
            }));
        Assert.Equal(["stored.lots", "stored.measurands", "stored"], Faults(new CompareLotsRequest { Stored = new StoredLots { Lots = { "A" } } }));
    }

    [Fact]
    public void Compare_MoreSpecimensThanAreEverTaken_IsRefused()
    {
        CompareLotsRequest request = Lots(("A", [0, 1, 2]), ("B", [0.015, 1.015, 2.015]));
        request.Options = new LotComparisonOptions { ConfidencePercent = 99.999999, PowerPercent = 99.999999 };

        Assert.Equal(["options.power_percent"], Faults(request));
    }

    private static CompareLotsRequest Lots(params (string Name, double[] Values)[] lots) => new()
    {
        Given = new GivenLots
        {
            Tables = { new LotTable { Measurand = "haze", Lots = { lots.Select(lot => new LotValues { Lot = lot.Name, Value = { lot.Values } }) } } },
        },
    };

    private static CompareLotsRequest SiRstv() => Lots(
        ("1", [196.3052, 196.1240, 196.1890, 196.2569, 196.3403]),
        ("2", [196.3042, 196.3825, 196.1669, 196.3257, 196.0422]),
        ("3", [196.1303, 196.2005, 196.2889, 196.0343, 196.1811]),
        ("4", [196.2795, 196.1748, 196.1494, 196.1485, 195.9885]),
        ("5", [196.2119, 196.1051, 196.1850, 196.0052, 196.2090]));

    private static LotComparison Accepted(CompareLotsRequest request)
    {
        StudyOutcome<CompareLotsResponse> outcome = LotStudy.Compare(request, TestContext.Current.CancellationToken);
        Assert.Empty(outcome.Violations);
        return Assert.Single(outcome.Response!.Comparisons);
    }

    private static IEnumerable<string> Faults(CompareLotsRequest request)
    {
        StudyOutcome<CompareLotsResponse> outcome = LotStudy.Compare(request, TestContext.Current.CancellationToken);
        Assert.False(outcome.IsAccepted);
        return outcome.Violations.Select(violation => violation.Field);
    }
}

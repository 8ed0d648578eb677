using ClearView.Contract.Studies;
using ClearView.Contract.Tests.Series;
using ClearView.Quality.Series;
using ClearView.V1;

namespace ClearView.Contract.Tests.Studies;

/// <summary>Capability from request to answer.</summary>
public class CapabilityStudyTests
{
    // NIST/SEMATECH e-Handbook 6.1.6, from memory: limits 8 and 20, mean 16, s = 2, target 14: 1.0, 0.6667, 0.7071. The interval of
    // Ppk for n = 50 (Bissell 1990) by hand, as on the page of the method: 0.6667 ± 0.1611.
    [Fact]
    public void Estimate_HandbookExample_KeepsEveryFigure()
    {
        double[] values = GivenExamples.Exactly(51, 50, 16, 2);
        EstimateCapabilityRequest request = Request(values);
        request.Options = new CapabilityOptions { Model = CapabilityModel.Normal, EvenIfUnstable = true };

        Capability capability = Accepted(request);

        Assert.Equal(["Cp", "Cpk", "Pp", "Ppk", "Cpm"], capability.Indices.Select(index => index.Symbol));
        Assert.Equal(1.0, Index(capability, "Pp").Value, 1e-9);
        Assert.Equal(0.6667, Index(capability, "Ppk").Value, 0.00005);
        Assert.Equal(0.7071, Index(capability, "Cpm").Value, 0.00005);
        Assert.Equal(0.5056, Index(capability, "Ppk").Interval.Lower, 0.00005);
        Assert.Equal(0.8278, Index(capability, "Ppk").Interval.Upper, 0.00005);
        Assert.Equal(2 / capability.WithinStandardDeviation, Index(capability, "Cp").Value, 1e-9);
        Assert.Equal(4 / (3 * capability.WithinStandardDeviation), Index(capability, "Cpk").Value, 1e-9);
        Assert.Equal(16, capability.Mean, 1e-12);
        Assert.Equal(2, capability.OverallStandardDeviation, 1e-12);
        Assert.Equal(50ul, capability.ReadingCount);
        Assert.Equal(50ul, capability.Normality.ReadingCount);
        Assert.Equal(CapabilityModel.Normal, capability.Model);
        Assert.Equal(1e6 * values.Count(value => value is < 8 or > 20) / 50, capability.ObservedPpm, 1e-9);
        Assert.Equal(("haze", "%", 14.0), (capability.Measurand, capability.Unit, capability.Limits.Target));
        Assert.Equal("", capability.Refusal);
        Assert.False(capability.HasPercentileMedian || capability.HasBoxCoxLambda);

        // Φ(−4) and Φ(−2), from memory of any table: 31.671e-6 and 22750.132e-6.
        Assert.Equal(22750.132 + 31.671, capability.ExpectedPpm, 0.001);
    }

    [Fact]
    public void Estimate_Histogram_CountsEveryReadingOnce()
    {
        double[] values = GivenExamples.Exactly(52, 1000, 16, 2);
        EstimateCapabilityRequest request = Request(values);
        request.Options = new CapabilityOptions { Model = CapabilityModel.Normal, EvenIfUnstable = true };

        Capability capability = Accepted(request);

        Assert.Equal(1000ul, capability.Histogram.Aggregate(0ul, (sum, bin) => sum + bin.ReadingCount));
        Assert.Equal(values.Min(), capability.Histogram[0].Lower);
        Assert.Equal(values.Max(), capability.Histogram[^1].Upper);
        Assert.All(capability.Histogram.Take(capability.Histogram.Count - 1), bin => Assert.Equal((ulong)values.Count(value => value >= bin.Lower && value < bin.Upper), bin.ReadingCount));

        // A normal distribution has all of its readings between the smallest and the largest of 1000, but about two.
        Assert.Equal(capability.Histogram.Count, capability.FittedBinCount.Count);
        Assert.InRange(capability.FittedBinCount.Sum(), 990, 1000);
    }

    // Logarithms of these readings are normal with mean 1 and σ 0.4: λ near 0; 12 lies (ln 12 − 1)/0.4 σ above.
    [Fact]
    public void Estimate_SkewedReadings_AreTransformedAndFittedThroughTheTransformation()
    {
        EstimateCapabilityRequest request = Request([.. GivenExamples.Exactly(59, 400, 1, 0.4).Select(Math.Exp)]);
        request.Limits = new SeriesLimits { Lower = 0.5, Upper = 12 };
        request.Options = new CapabilityOptions { EvenIfUnstable = true, Model = CapabilityModel.BoxCox };

        Capability capability = Accepted(request);

        Assert.Equal(CapabilityModel.BoxCox, capability.Model);
        Assert.Equal(0, capability.BoxCoxLambda, 0.2);
        Assert.Equal((Math.Log(12) - 1) / 1.2, Index(capability, "Ppk").Value, 0.15);
        Assert.Equal(Math.E, capability.PercentileMedian, 0.1);
        Assert.True(capability.PercentileHigh - capability.PercentileMedian > 2 * (capability.PercentileMedian - capability.PercentileLow));
        Assert.InRange(capability.FittedBinCount.Sum(), 390, 400);

        // The mode of the log-normal distribution, exp(μ − σ²) = 2.32, holds the highest bin of the fit, within its width.
        int highest = capability.FittedBinCount.IndexOf(capability.FittedBinCount.Max());
        Assert.InRange(2.32, capability.Histogram[highest].Lower - 0.4, capability.Histogram[highest].Upper + 0.4);
    }

    [Fact]
    public void Estimate_Percentiles_HaveNoDensity()
    {
        EstimateCapabilityRequest request = Request(GivenExamples.Exactly(60, 1000, 16, 2));
        request.Options = new CapabilityOptions { Model = CapabilityModel.Percentiles, EvenIfUnstable = true };

        Capability capability = Accepted(request);

        Assert.Equal(CapabilityModel.Percentiles, capability.Model);
        Assert.Empty(capability.FittedBinCount);
        Assert.NotEmpty(capability.Histogram);
        Assert.Equal(["Pp", "Ppk"], capability.Indices.Select(index => index.Symbol));
        Assert.All(capability.Indices, index => Assert.Null(index.Interval));
        Assert.False(capability.HasExpectedPpm);
    }

    [Fact]
    public void Estimate_UnstableProcess_IsAnsweredWithTheReason()
    {
        Capability capability = Accepted(Request([.. GivenExamples.Exactly(56, 50, 12, 1), .. GivenExamples.Exactly(57, 50, 16, 1)]));

        Assert.Contains("not stable", capability.Refusal, StringComparison.Ordinal);
        Assert.False(capability.Stability.Stable);
        Assert.True(capability.Stability.BeyondLimitsCount + capability.Stability.RunCount > 0);
        Assert.Empty(capability.Indices);
        Assert.Empty(capability.FittedBinCount);
        Assert.Equal(CapabilityModel.Unspecified, capability.Model);
        Assert.Equal(14, capability.Mean, 1e-9);
    }

    [Fact]
    public void Estimate_NoSpread_IsAnsweredWithTheReason()
    {
        Capability capability = Accepted(Request([.. Enumerable.Repeat(12.0, 30)]));

        Assert.Contains("do not differ", capability.Refusal, StringComparison.Ordinal);
        HistogramBin bin = Assert.Single(capability.Histogram);
        Assert.Equal((11.5, 12.5, 30ul), (bin.Lower, bin.Upper, bin.ReadingCount));
        Assert.Equal(0, capability.OverallStandardDeviation);
        Assert.False(capability.HasWithinStandardDeviation);
    }

    [Fact]
    public void Estimate_TooFew_SaysWhatItKnows()
    {
        Capability none = Estimate(new SeriesColumns(CapabilityStudy.Parts));
        Capability three = Accepted(Request([10, 12, 14]));

        Assert.Contains("0 readings", none.Refusal, StringComparison.Ordinal);
        Assert.False(none.HasMean || none.HasOverallStandardDeviation);
        Assert.Empty(none.Histogram);
        Assert.Contains("3 readings", three.Refusal, StringComparison.Ordinal);
        Assert.Equal(12, three.Mean);
        Assert.Equal(2, three.OverallStandardDeviation);
        Assert.Null(three.Stability);
    }

    [Fact]
    public void Estimate_EveryFieldAtFault_IsNamedAtOnce() => Assert.Equal(
        ["given.value[3]", "limits.lower", "options.confidence_percent", "options.model", "options.subgroup_count"],
        Faults(new EstimateCapabilityRequest
        {
            Given = GivenExamples.Haze(1, 2, 3, double.NaN),
            Limits = new SeriesLimits { Lower = 3, Upper = 3 },
            Options = new CapabilityOptions { ConfidencePercent = 50, Model = (CapabilityModel)7, SubgroupCount = 26 },
        }));

    [Theory]
    [InlineData(null, null, 1.0, "limits")]
    [InlineData(double.NaN, 2.0, null, "limits.lower")]
    [InlineData(1.0, double.PositiveInfinity, null, "limits.upper")]
    [InlineData(3.0, 2.0, null, "limits.lower")]
    [InlineData(1.0, 2.0, double.NaN, "limits.target")]
    [InlineData(1.0, 2.0, 0.9, "limits.target")]
    [InlineData(1.0, 2.0, 2.1, "limits.target")]
    public void Estimate_LimitsThatCannotStand_AreNamed(double? lower, double? upper, double? target, string field)
    {
        EstimateCapabilityRequest request = Request([1, 2, 3]);
        request.Limits = new SeriesLimits();
        if (lower is { } low)
        {
            request.Limits.Lower = low;
        }

        if (upper is { } high)
        {
            request.Limits.Upper = high;
        }

        if (target is { } aim)
        {
            request.Limits.Target = aim;
        }

        Assert.Equal([field], Faults(request));
    }

    [Theory]
    [InlineData(50)]
    [InlineData(100)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void Estimate_ConfidenceOutOfRange_IsNamed(double percent)
    {
        EstimateCapabilityRequest request = Request([1, 2, 3]);
        request.Options = new CapabilityOptions { ConfidencePercent = percent };

        Assert.Equal(["options.confidence_percent"], Faults(request));
    }

    [Fact]
    public void Estimate_NothingChosen_IsNamed()
    {
        Assert.Equal(["stored", "limits"], Faults(new EstimateCapabilityRequest()));
        Assert.Equal(
            ["stored", "specification_name"],
            Faults(new EstimateCapabilityRequest
            {
                Stored = new StoredSeries { Filter = new SeriesFilter { Measurand = "haze" } },
                SpecificationName = new SpecificationName { Name = "clear-film" },
            }));
    }

    private static EstimateCapabilityRequest Request(double[] values) => new()
    {
        Given = GivenExamples.Haze(values),
        Limits = new SeriesLimits { Lower = 8, Upper = 20, Target = 14 },
    };

    private static Capability Estimate(SeriesColumns series) => CapabilityStudy.Estimate(
        Optics.Evaluations.Measurand.All.Single(measurand => measurand.Id == "haze"), series, new SeriesLimits { Upper = 3 }, null).Response!.Capability;

    private static CapabilityIndex Index(Capability capability, string symbol) => capability.Indices.Single(index => index.Symbol == symbol);

    private static Capability Accepted(EstimateCapabilityRequest request)
    {
        StudyOutcome<EstimateCapabilityResponse> outcome = CapabilityStudy.Estimate(request);
        Assert.Empty(outcome.Violations);
        return outcome.Response!.Capability;
    }

    private static IEnumerable<string> Faults(EstimateCapabilityRequest request)
    {
        StudyOutcome<EstimateCapabilityResponse> outcome = CapabilityStudy.Estimate(request);
        Assert.False(outcome.IsAccepted);
        return outcome.Violations.Select(violation => violation.Field);
    }
}

using ClearView.Quality.Capability;
using ClearView.Quality.ControlCharts;
using ClearView.Quality.Tests.ControlCharts;
using ClearView.Quality.Tests.Reference;

using FsCheck.Xunit;

namespace ClearView.Quality.Tests.Capability;

public sealed class ProcessCapabilityTests
{
    private static readonly CapabilityOptions AsNormal = new() { Model = CapabilityModel.Normal, EvenIfUnstable = true };

    // NIST/SEMATECH e-Handbook 6.1.6, from memory: limits 8 and 20, mean 16, s = 2: Cp = 1.0, Cpk = 0.6667, Cpm = 0.7071 with
    // the target at 14. The readings are made to have exactly this mean and s.
    [Fact]
    public void Of_HandbookExample()
    {
        double[] readings = Exactly(Draws.Normal(51, 50), 16, 2);

        CapabilityResult result = ProcessCapability.Of(readings, new CapabilityLimits(8, 20, 14), AsNormal);

        Assert.Equal(1.0, result.Pp!.Value, 1e-9);
        Assert.Equal(0.6667, result.Ppk!.Value, 0.00005);
        Assert.Equal(0.7071, result.Cpm!.Value, 0.00005);
        Assert.Equal(result.Pp.Value * 2 / result.WithinStandardDeviation, result.Cp!.Value, 1e-9);
        Assert.Equal(result.Ppk.Value * 2 / result.WithinStandardDeviation, result.Cpk!.Value, 1e-9);
    }

    [Theory]
    [InlineData(20, 0.95)]
    [InlineData(50, 0.90)]
    [InlineData(500, 0.99)]
    public void Of_IntervalOfPp_AgreesWithR(int count, double level)
    {
        CapabilityResult result = ProcessCapability.Of(
            Exactly(Draws.Normal(52, count), 16, 2), new CapabilityLimits(8, 20), AsNormal with { ConfidenceLevel = level });

        double[] r = ReferenceR.Ask("reference_control.R", "chi_ratio", [count - 1], [level]);
        Assert.Equal(r[0], result.Pp!.Lower!.Value / result.Pp.Value, 1e-8);
        Assert.Equal(r[1], result.Pp.Upper!.Value / result.Pp.Value, 1e-8);
    }

    // R: degrees of freedom from the variance of 200 000 simulated mean moving ranges, good to about 1 %.
    [Fact]
    public void Of_MovingRange_DegreesOfFreedomAgreeWithSimulation()
    {
        CapabilityResult result = ProcessCapability.Of(Exactly(Draws.Normal(53, 30), 16, 2), new CapabilityLimits(8, 20), AsNormal);

        double simulated = ReferenceR.Ask("reference_control.R", "moving_range_freedom", [30], [100_000])[0];
        Assert.Equal(1, result.WithinDegreesOfFreedom / simulated, 0.02);
    }

    // The interval of Ppk (Bissell) holds the true value about as often as it says: 1000 samples of 50.
    [Fact]
    public void Of_IntervalOfPpk_CoversTheTrueValue()
    {
        double truth = (20 - 16) / (3 * 2.0);
        int held = 0;
        for (int seed = 0; seed < 1000; seed++)
        {
            CapabilityIndex ppk = ProcessCapability.Of(Draws.Normal(seed, 50, 16, 2), new CapabilityLimits(8, 20), AsNormal).Ppk!;
            held += ppk.Lower <= truth && truth <= ppk.Upper ? 1 : 0;
        }

        Assert.InRange(held, 925, 975);
    }

    [Theory]
    [InlineData(null, 20.0, 0.6667)]
    [InlineData(8.0, null, 1.3333)]
    public void Of_OneLimit_HasNoTwoSidedIndex(double? lower, double? upper, double ppk)
    {
        CapabilityResult result = ProcessCapability.Of(Exactly(Draws.Normal(54, 50), 16, 2), new CapabilityLimits(lower, upper, 14), AsNormal);

        Assert.Equal(ppk, result.Ppk!.Value, 0.00005);
        Assert.Null(result.Pp);
        Assert.Null(result.Cp);
        Assert.Null(result.Cpm);
    }

    [Fact]
    public void Of_Ppm_ExpectedAndObserved()
    {
        double[] readings = Exactly(Draws.Normal(55, 200), 16, 2);

        CapabilityResult result = ProcessCapability.Of(readings, new CapabilityLimits(10, 20), AsNormal);

        // Φ(−3) = 0.001349898, Φ(−2) = 0.022750132, from memory of any table.
        Assert.Equal(24100.03, result.ExpectedPpm!.Value, 0.01);
        Assert.Equal(1e6 * readings.Count(value => value is < 10 or > 20) / 200, result.ObservedPpm, 1e-9);
    }

    [Fact]
    public void Of_UnstableProcess_IsRefusedUnlessAsked()
    {
        double[] readings = [.. Draws.Normal(56, 50, 10), .. Draws.Normal(57, 50, 14)];
        CapabilityLimits limits = new(0, 30);

        CapabilityResult refused = ProcessCapability.Of(readings, limits);
        CapabilityResult asked = ProcessCapability.Of(readings, limits, new CapabilityOptions { EvenIfUnstable = true, Model = CapabilityModel.Normal });

        Assert.Equal(CapabilityRefusalReason.Unstable, refused.Refusal!.Reason);
        Assert.Contains("not stable", refused.Refusal.Explanation, StringComparison.Ordinal);
        Assert.Null(refused.Ppk);
        Assert.Null(asked.Refusal);
        Assert.NotNull(asked.Ppk);
        Assert.Contains(asked.Remarks, remark => remark.Contains("foretell nothing", StringComparison.Ordinal));
    }

    [Fact]
    public void Of_TooFew_IsRefused()
    {
        CapabilityLimits limits = new(0, 30);

        Assert.Equal(CapabilityRefusalReason.TooFewReadings, ProcessCapability.Of([], limits).Refusal!.Reason);
        Assert.Equal(CapabilityRefusalReason.TooFewReadings, ProcessCapability.Of(Draws.Normal(58, 9, 10), limits).Refusal!.Reason);
        Assert.NotEqual(CapabilityRefusalReason.TooFewReadings, ProcessCapability.Of(Draws.Normal(58, 10, 10), limits).Refusal?.Reason);
    }

    [Fact]
    public void Of_NoSpread_IsRefused()
    {
        Assert.Equal(CapabilityRefusalReason.NoSpread, ProcessCapability.Of([.. Enumerable.Repeat(2.0, 30)], new CapabilityLimits(0, 3)).Refusal!.Reason);
        Assert.Equal(
            CapabilityRefusalReason.NoSpread,
            ProcessCapability.Of([.. Enumerable.Range(0, 30).Select(i => (double)(i / 5))], new CapabilityLimits(0, 30), new CapabilityOptions { SubgroupSize = 5 })
                .Refusal!.Reason);
    }

    [Fact]
    public void Of_SkewedReadings_AreTransformed()
    {
        double[] readings = [.. Draws.Normal(59, 400, 1, 0.4).Select(Math.Exp)];

        CapabilityResult result = ProcessCapability.Of(readings, new CapabilityLimits(0.5, 12));

        // Stable, though the long tail lies beyond the limits of a chart of the readings themselves.
        Assert.Null(result.Refusal);
        Assert.True(
            SignalCount.Of(ControlBaseline.OfIndividuals(readings).Limits!, new RunRules { Patterns = ControlSignals.BeyondLimits }, readings).PointsWithSignals
            > result.Stability!.AllowedBeyondLimits);
        Assert.True(result.Normality!.PValue < 0.05);
        Assert.Equal(CapabilityModel.BoxCox, result.Model);
        // ln 12 lies (ln 12 − 1)/0.4 = 3.71 σ above the mean, ln 0.5 4.2 σ below it.
        Assert.Equal((Math.Log(12) - 1) / 1.2, result.Ppk!.Value, 0.15);
        Assert.Null(result.Cpk);
    }

    [Fact]
    public void Of_TwoPeaks_AreRatedByPercentiles()
    {
        double[] readings = [.. Draws.Normal(60, 2000, 10, 0.5).Select((value, i) => i % 2 == 0 ? value : value + 4)];

        CapabilityResult result = ProcessCapability.Of(readings, new CapabilityLimits(6, 18), new CapabilityOptions { EvenIfUnstable = true });

        double[] r = ReferenceR.Ask("reference_control.R", "quantile", readings, [0.0013498980316301, 0.5, 1 - 0.0013498980316301]);
        Assert.Equal(CapabilityModel.Percentiles, result.Model);
        Assert.Equal(r[0], result.Percentiles!.Low, 1e-9);
        Assert.Equal(r[1], result.Percentiles.Median, 1e-9);
        Assert.Equal(r[2], result.Percentiles.High, 1e-9);
        Assert.Equal(12 / (r[2] - r[0]), result.Pp!.Value, 1e-9);
        Assert.Equal(Math.Min((18 - r[1]) / (r[2] - r[1]), (r[1] - 6) / (r[1] - r[0])), result.Ppk!.Value, 1e-9);
    }

    [Fact]
    public void Of_TwoPeaksAndFewReadings_IsRefused()
    {
        double[] readings = [.. Draws.Normal(60, 200, 10, 0.5).Select((value, i) => i % 2 == 0 ? value : value + 4)];

        CapabilityResult result = ProcessCapability.Of(readings, new CapabilityLimits(6, 18), new CapabilityOptions { EvenIfUnstable = true });

        Assert.Equal(CapabilityRefusalReason.NoModelFits, result.Refusal!.Reason);
    }

    // Another unit or zero point changes no index.
    [Property(Replay = "(20240419,27)", MaxTest = 50)]
    public void Of_ShiftAndScale_ChangeNoIndex(int seed, short shift, byte factor)
    {
        double scale = (factor + 1) / 16.0;
        double[] drawn = Draws.Normal(seed, 40);
        CapabilityResult plain = ProcessCapability.Of(drawn, new CapabilityLimits(-4, 5, 0.5), AsNormal);

        CapabilityResult moved = ProcessCapability.Of(
            drawn.Select(value => shift + (scale * value)).ToArray(),
            new CapabilityLimits(shift - (4 * scale), shift + (5 * scale), shift + (0.5 * scale)),
            AsNormal);

        Assert.Equal(plain.Cpk!.Value, moved.Cpk!.Value, 1e-6);
        Assert.Equal(plain.Ppk!.Value, moved.Ppk!.Value, 1e-6);
        Assert.Equal(plain.Cpm!.Value, moved.Cpm!.Value, 1e-6);
        Assert.Equal(plain.ExpectedPpm!.Value, moved.ExpectedPpm!.Value, 1e-3);
    }

    [Fact]
    public void Limits_ThatCannotStand_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => new CapabilityLimits(null, null, 1));
        Assert.Throws<ArgumentException>(() => new CapabilityLimits(2, 2));
        Assert.Throws<ArgumentException>(() => new CapabilityLimits(double.NaN, 2));
        Assert.Throws<ArgumentException>(() => ProcessCapability.Of([1, 2, double.NaN], new CapabilityLimits(0, 2)));
    }

    private static double[] Exactly(double[] drawn, double mean, double deviation)
    {
        double average = drawn.Average();
        double s = Math.Sqrt(drawn.Sum(value => (value - average) * (value - average)) / (drawn.Length - 1));
        return [.. drawn.Select(value => mean + (deviation * (value - average) / s))];
    }
}

using System.Diagnostics;

using ClearView.Quality.Capability;
using ClearView.Quality.ControlCharts;
using ClearView.Quality.Rolls;

namespace ClearView.Quality.Tests.ControlCharts;

/// <summary>Three million readings, a year of one line: nothing is kept per reading, and the time is noted.</summary>
public sealed class YearOfReadingsTests(ITestOutputHelper output)
{
    private const int Count = 3_000_000;
    private const long OneReadingEach = 8L * Count;

    // A bound that only another order of magnitude breaks: the machine may be busy.
    private static readonly TimeSpan Bound = TimeSpan.FromSeconds(30);

    private static readonly double[] Year = Draws.Normal(91, Count, 2, 0.1);

    [Fact]
    public void Chart_KeepsNothingPerReading()
    {
        ControlLimits limits = ControlBaseline.OfIndividuals(Year.AsSpan(0, 1000)).Limits!;

        long allocated = Measured("individuals chart", () => SignalCount.Of(limits, RunRules.All, Year, keep: 10));

        Assert.InRange(allocated, 0, 100_000);
    }

    [Fact]
    public void Roll_KeepsNothingPerReading()
    {
        RollAccumulator roll = new(new RollGrid(0, 1000, 50, 0, Count, 400), new RollLimits(null, 2.2));

        long allocated = Measured("roll map", () =>
        {
            for (int i = 0; i < Count; i++)
            {
                roll.Add(new RollReading(i % 1000, i, Year[i]));
            }

            roll.Report();
        });

        Assert.InRange(allocated, 0, OneReadingEach / 4);
    }

    [Fact]
    public void Capability_KeepsNoCopyOfNormalReadings()
    {
        long allocated = Measured("capability", () => ProcessCapability.Of(Year, new CapabilityLimits(null, 2.5), new CapabilityOptions { Model = CapabilityModel.Normal, EvenIfUnstable = true }));

        Assert.InRange(allocated, 0, 1_000_000);
    }

    private long Measured(string what, Action action)
    {
        action();
        long before = GC.GetAllocatedBytesForCurrentThread();
        long start = Stopwatch.GetTimestamp();
        action();
        TimeSpan elapsed = Stopwatch.GetElapsedTime(start);
        output.WriteLine(FormattableString.Invariant($"{what}: {Count} readings in {elapsed.TotalMilliseconds:0} ms"));
        Assert.InRange(elapsed, TimeSpan.Zero, Bound);
        return GC.GetAllocatedBytesForCurrentThread() - before;
    }
}

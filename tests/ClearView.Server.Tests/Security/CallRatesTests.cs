using System.Globalization;

using ClearView.Server.Configuration;
using ClearView.Server.Security;

namespace ClearView.Server.Tests.Security;

/// <summary>Addresses that fail to identify themselves, more of them than are kept.</summary>
public sealed class CallRatesTests
{
    private const int Kept = 10_000;

    private readonly CountedClock _clock = new();
    private readonly CallRates _rates;

    public CallRatesTests()
    {
        _rates = new CallRates(new ServerOptions(), _clock);
        for (var i = 0; i < Kept; i++)
        {
            Assert.True(_rates.TryFail(Address(i), out _));
        }
    }

    // A look at a bucket reads the clock: so many reads, so many buckets were looked at.
    [Fact]
    public void TryFail_BeyondTheBound_WalksOverAllOncePerSecondAtMost()
    {
        var filled = _clock.Reads;
        _rates.TryFail(Address(Kept), out _);
        var walked = _clock.Reads;
        for (var i = 1; i <= 500; i++)
        {
            _rates.TryFail(Address(Kept + i), out _);
        }

        Assert.InRange(walked - filled, Kept, Kept + 10);
        Assert.InRange(_clock.Reads - walked, 500, 5 * 500);

        _clock.Advance(TimeSpan.FromSeconds(0.5));
        _rates.TryFail(Address(Kept), out _);
        Assert.InRange(_clock.Reads - walked, 500, 6 * 500);
    }

    [Fact]
    public void TryFail_BeyondTheBound_SharesOneBucket_AndThoseKnownHaveTheirOwn()
    {
        for (var i = 0; i < 10; i++)
        {
            Assert.True(_rates.TryFail(Address(Kept + i), out _));
        }

        Assert.False(_rates.TryFail(Address(Kept + 99), out _));
        Assert.True(_rates.TryFail(Address(5), out _));
    }

    [Fact]
    public void TryFail_OnceTheOthersHaveRested_HasABucketOfItsOwn()
    {
        _rates.TryFail(Address(Kept), out _);
        _clock.Advance(TimeSpan.FromSeconds(20));
        for (var i = 0; i < 10; i++)
        {
            Assert.True(_rates.TryFail(Address(Kept + 1), out _));
        }

        Assert.False(_rates.TryFail(Address(Kept + 1), out _));
        Assert.True(_rates.TryFail(Address(Kept + 2), out _));
    }

    private static string Address(int number) => number.ToString(CultureInfo.InvariantCulture);

    private sealed class CountedClock : TimeProvider
    {
        private long _timestamp;

        public long Reads { get; private set; }

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override long GetTimestamp()
        {
            Reads++;
            return _timestamp;
        }

        public void Advance(TimeSpan time) => _timestamp += time.Ticks;
    }
}

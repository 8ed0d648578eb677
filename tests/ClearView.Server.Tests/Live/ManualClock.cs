namespace ClearView.Server.Tests.Live;

/// <summary>A clock that is moved by hand.</summary>
internal sealed class ManualClock : TimeProvider
{
    private long _timestamp;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override long GetTimestamp() => _timestamp;

    public void Advance(TimeSpan time) => _timestamp += time.Ticks;
}

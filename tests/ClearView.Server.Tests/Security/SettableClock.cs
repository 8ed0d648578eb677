namespace ClearView.Server.Tests.Security;

/// <summary>A clock that is moved by hand, time of day and time elapsed together.</summary>
internal sealed class SettableClock : TimeProvider
{
    private DateTimeOffset _now = DateTimeOffset.UtcNow;

    public override long TimestampFrequency => TimeSpan.TicksPerSecond;

    public override DateTimeOffset GetUtcNow() => _now;

    public override long GetTimestamp() => _now.UtcTicks;

    public void Advance(TimeSpan time) => _now += time;
}

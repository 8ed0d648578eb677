namespace ClearView.Server.Security;

/// <summary>Lets so much through per second, and a burst at once.</summary>
/// <param name="clock">The clock.</param>
/// <param name="perSecond">Tokens that come per second.</param>
/// <param name="burst">Most tokens that gather.</param>
internal sealed class TokenBucket(TimeProvider clock, double perSecond, double burst)
{
    private readonly Lock _lock = new();
    private double _taken;
    private long _countedAt = clock.GetTimestamp();

    /// <summary>Whether nothing has been taken lately.</summary>
    public bool IsFull
    {
        get
        {
            lock (_lock)
            {
                Fill();
                return _taken <= 0;
            }
        }
    }

    /// <summary>Takes a token.</summary>
    /// <param name="wait">Time until there is one, where there is none.</param>
    public bool TryTake(out TimeSpan wait)
    {
        lock (_lock)
        {
            Fill();
            if (_taken <= burst - 1)
            {
                _taken++;
                wait = TimeSpan.Zero;
                return true;
            }

            wait = TimeSpan.FromSeconds((_taken + 1 - burst) / perSecond);
            return false;
        }
    }

    private void Fill()
    {
        var now = clock.GetTimestamp();
        _taken = Math.Max(0, _taken - (clock.GetElapsedTime(_countedAt, now).TotalSeconds * perSecond));
        _countedAt = now;
    }
}

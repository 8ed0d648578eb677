namespace ClearView.Client;

/// <summary>How patient the client is, and who.</summary>
public sealed record ClearViewClientOptions
{
    /// <summary>Time a call may take, its retries included; on a stream, the longest wait for the next answer. Above 0; 30 s.</summary>
    public TimeSpan CallDeadline { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>Attempts at a call while the server is unavailable, the first included. 1 to 5; 4. 1 never retries.</summary>
    public int MaxAttempts { get; init; } = 4;

    /// <summary>Pause before the second attempt, about which a random pause is taken; it doubles with each attempt. Above 0; 0.2 s.</summary>
    public TimeSpan InitialBackoff { get; init; } = TimeSpan.FromMilliseconds(200);

    /// <summary>Longest pause between attempts. Above 0; 2 s.</summary>
    public TimeSpan MaxBackoff { get; init; } = TimeSpan.FromSeconds(2);

    /// <summary>Longest silence on a watch before its connection is taken for lost; servers speak every 3 s. Above 0; 15 s.</summary>
    public TimeSpan WatchSilence { get; init; } = TimeSpan.FromSeconds(15);

    /// <summary>Who the client is, and which server it trusts. None by default.</summary>
    public ClearViewCredentials Credentials { get; init; } = new();

    internal void Validate()
    {
        ArgumentNullException.ThrowIfNull(Credentials);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(WatchSilence, TimeSpan.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(CallDeadline, TimeSpan.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThan(MaxAttempts, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(MaxAttempts, 5);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(InitialBackoff, TimeSpan.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(MaxBackoff, TimeSpan.Zero);
    }
}

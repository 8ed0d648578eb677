namespace ClearView.Server.Watching;

/// <summary>How often a watch looks and speaks.</summary>
/// <param name="Poll">Longest time between two looks into the store: it finds what other servers stored where their notice was lost.</param>
/// <param name="Gather">Pause before a look that follows a change, so that readings which come in together are read together.</param>
/// <param name="SignOfLife">Longest time without an answer.</param>
internal sealed record WatchPace(TimeSpan Poll, TimeSpan Gather, TimeSpan SignOfLife)
{
    /// <summary>The usual pace.</summary>
    public static WatchPace Usual { get; } = new(TimeSpan.FromSeconds(1), TimeSpan.FromMilliseconds(20), TimeSpan.FromSeconds(3));
}

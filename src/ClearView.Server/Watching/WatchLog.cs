namespace ClearView.Server.Watching;

/// <summary>What is written to the log of watches.</summary>
internal static partial class WatchLog
{
    [LoggerMessage(750, LogLevel.Information, "A watch ended; {SentCount} readings were sent")]
    public static partial void Ended(ILogger logger, long sentCount);
}

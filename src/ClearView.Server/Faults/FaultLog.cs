namespace ClearView.Server.Faults;

/// <summary>What is written to the log when something goes wrong that no caller caused.</summary>
internal static partial class FaultLog
{
    [LoggerMessage(900, LogLevel.Error, "{Method} failed; reference {Reference}")]
    public static partial void Unexpected(ILogger logger, Exception error, string method, string reference);

    [LoggerMessage(901, LogLevel.Warning, "{Method} answered UNAVAILABLE: the store failed")]
    public static partial void StoreUnavailable(ILogger logger, Exception error, string method);
}

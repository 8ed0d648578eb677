namespace ClearView.Server.Hosting;

/// <summary>What is written to the log as the server starts and stops.</summary>
internal static partial class ServerLog
{
    [LoggerMessage(1, LogLevel.Information, "ClearView {Version} listens on {Address}; store {Store}")]
    public static partial void Started(ILogger logger, string version, Uri address, string store);

    [LoggerMessage(2, LogLevel.Information, "Stopping: finishing the calls in flight, for up to {Timeout}")]
    public static partial void Stopping(ILogger logger, TimeSpan timeout);

    [LoggerMessage(3, LogLevel.Information, "Stopped")]
    public static partial void Stopped(ILogger logger);
}

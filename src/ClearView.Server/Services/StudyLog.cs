namespace ClearView.Server.Services;

/// <summary>What the service of studies writes to the log.</summary>
internal static partial class StudyLog
{
    [LoggerMessage(600, LogLevel.Debug, "{Method} looks at {Count} readings")]
    public static partial void SeriesStudied(ILogger logger, string method, int count);
}

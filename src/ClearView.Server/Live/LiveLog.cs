namespace ClearView.Server.Live;

/// <summary>What is written to the log of charts that readings are held against.</summary>
internal static partial class LiveLog
{
    [LoggerMessage(500, LogLevel.Error, "Reading {ReadingId} is stored, but was not held against chart {Name} version {Version}")]
    public static partial void CheckFailed(ILogger logger, Exception error, Guid readingId, string name, uint version);

    [LoggerMessage(501, LogLevel.Error, "Reading {ReadingId} is stored, but was not held against any chart: the list of charts cannot be read")]
    public static partial void ChartsNotListed(ILogger logger, Exception error, Guid readingId);

    [LoggerMessage(502, LogLevel.Warning, "Chart {Name} version {Version} is not watched: this version of the software cannot draw it")]
    public static partial void ChartNotWatched(ILogger logger, Exception error, string name, long version);

    [LoggerMessage(503, LogLevel.Warning, "Reading {ReadingId} is held against charts that lack what other servers recorded lately: the store cannot be read")]
    public static partial void OthersNotRead(ILogger logger, Exception error, Guid readingId);

    [LoggerMessage(505, LogLevel.Information, "{Count} readings that a server left without their signals were held against the charts; {Raised} raised some")]
    public static partial void LeftSettled(ILogger logger, int count, int raised);

    [LoggerMessage(506, LogLevel.Warning, "Readings that a server left without their signals are not settled: the store failed")]
    public static partial void LeftNotSettled(ILogger logger, Exception error);

    [LoggerMessage(507, LogLevel.Warning, "Reading {ReadingId}, left without its signals, is not settled: its evaluation cannot be read; verify the store")]
    public static partial void LeftUnreadable(ILogger logger, Exception error, Guid readingId);

    [LoggerMessage(504, LogLevel.Warning, "The list of charts cannot be read; the one of before is used on")]
    public static partial void ChartsNotListedAgain(ILogger logger, Exception error);
}

namespace ClearView.Server.Posting;

/// <summary>What posting writes to the log.</summary>
internal static partial class PostLog
{
    [LoggerMessage(200, LogLevel.Debug, "Reading {ReadingId} stored")]
    public static partial void Stored(ILogger logger, Guid readingId);

    [LoggerMessage(201, LogLevel.Debug, "Reading {ReadingId} was already stored; posted again")]
    public static partial void PostedAgain(ILogger logger, Guid readingId);

    [LoggerMessage(202, LogLevel.Information, "Reading {ReadingId} refused: stored with another body, {FieldCount} fields differ")]
    public static partial void Conflict(ILogger logger, Guid readingId, int fieldCount);

    [LoggerMessage(203, LogLevel.Information, "Post refused: {FieldCount} fields at fault, the first is {FirstField}")]
    public static partial void Refused(ILogger logger, int fieldCount, string firstField);

    [LoggerMessage(204, LogLevel.Information, "Post refused: {Reason}")]
    public static partial void NotFound(ILogger logger, string reason);

    [LoggerMessage(206, LogLevel.Information, "Correction refused: {Reason}")]
    public static partial void CorrectionRefused(ILogger logger, string reason);

    [LoggerMessage(205, LogLevel.Information, "Post stream ended: {StoredCount} stored, {ThereCount} had been stored before, {RefusedCount} refused")]
    public static partial void StreamEnded(ILogger logger, long storedCount, long thereCount, long refusedCount);

    [LoggerMessage(207, LogLevel.Error, "Reading {ReadingId} is stored, but the signals that it raised are not")]
    public static partial void SignalsNotStored(ILogger logger, Exception error, Guid readingId);
}

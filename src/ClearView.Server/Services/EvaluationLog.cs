namespace ClearView.Server.Services;

/// <summary>What the evaluation service writes to the log.</summary>
internal static partial class EvaluationLog
{
    [LoggerMessage(100, LogLevel.Debug, "Evaluation refused: {FieldCount} fields at fault")]
    public static partial void Refused(ILogger logger, int fieldCount);

    [LoggerMessage(101, LogLevel.Information, "Evaluation stream ended after {Count} specimens, {Refused} of them refused")]
    public static partial void StreamEnded(ILogger logger, long count, long refused);
}

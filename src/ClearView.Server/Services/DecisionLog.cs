namespace ClearView.Server.Services;

/// <summary>What the services of specifications and verdicts write to the log.</summary>
internal static partial class DecisionLog
{
    [LoggerMessage(400, LogLevel.Information, "Specification {Name} stored as version {Version}")]
    public static partial void SpecificationStored(ILogger logger, string name, long version);

    [LoggerMessage(401, LogLevel.Information, "Reference {Name} stored as version {Version}")]
    public static partial void ReferenceStored(ILogger logger, string name, long version);

    [LoggerMessage(402, LogLevel.Information, "Judgement refused: {FieldCount} fields at fault")]
    public static partial void JudgementRefused(ILogger logger, int fieldCount);

    [LoggerMessage(403, LogLevel.Debug, "{Count} stored readings or groups judged under {Name} version {Version}")]
    public static partial void ReadingsJudged(ILogger logger, long count, string name, uint version);
}

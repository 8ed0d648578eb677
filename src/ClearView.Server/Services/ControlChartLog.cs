namespace ClearView.Server.Services;

/// <summary>What the service of control charts writes to the log.</summary>
internal static partial class ControlChartLog
{
    [LoggerMessage(510, LogLevel.Information, "Control chart {Name} stored as version {Version}")]
    public static partial void Stored(ILogger logger, string name, long version);

    [LoggerMessage(511, LogLevel.Information, "Control chart {Name} version {Version} drawn over {Count} readings")]
    public static partial void Drawn(ILogger logger, string name, uint version, long count);

    [LoggerMessage(512, LogLevel.Information, "Control chart refused: {FieldCount} fields at fault, the first is {FirstField}")]
    public static partial void Refused(ILogger logger, int fieldCount, string firstField);
}

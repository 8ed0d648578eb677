namespace ClearView.Server.Services;

/// <summary>What the audit service writes to the log.</summary>
internal static partial class AuditLog
{
    [LoggerMessage(701, LogLevel.Information, "Extract of {Readings} readings signed")]
    public static partial void Exported(ILogger logger, long readings);

    [LoggerMessage(700, LogLevel.Information, "Chains verified: {Links} links, break: {Break}")]
    public static partial void Verified(ILogger logger, long links, string @break);
}

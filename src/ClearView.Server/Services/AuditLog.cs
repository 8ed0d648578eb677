namespace ClearView.Server.Services;

/// <summary>What the audit service writes to the log.</summary>
internal static partial class AuditLog
{
    [LoggerMessage(700, LogLevel.Information, "Chains verified: {Links} links, break: {Break}")]
    public static partial void Verified(ILogger logger, long links, string @break);
}

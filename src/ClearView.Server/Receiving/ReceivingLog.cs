namespace ClearView.Server.Receiving;

/// <summary>What is written to the log of what comes over the wire.</summary>
internal static partial class ReceivingLog
{
    [LoggerMessage(950, LogLevel.Information, "Message to {Method} refused: {Reason}")]
    public static partial void Malformed(ILogger logger, string method, string reason);
}

using ClearView.V1;

namespace ClearView.Server.Security;

/// <summary>What is written to the log about certificates and callers. Never a key, never a password.</summary>
internal static partial class SecurityLog
{
    [LoggerMessage(800, LogLevel.Information, "Certificate {Subject} in use, valid until {ValidUntil:u}")]
    public static partial void CertificateTaken(ILogger logger, string subject, DateTime validUntil);

    [LoggerMessage(801, LogLevel.Warning, "The changed files of certificates cannot be used, the certificate before stays in use: {Reason}")]
    public static partial void CertificateKept(ILogger logger, string reason);

    [LoggerMessage(802, LogLevel.Warning, "Certificate {Subject} has expired; clients will refuse it")]
    public static partial void CertificateExpired(ILogger logger, string subject);

    [LoggerMessage(803, LogLevel.Information, "{Method} refused, the caller at {Address} is not identified: {Problem}")]
    public static partial void NotIdentified(ILogger logger, string method, string address, string problem);

    [LoggerMessage(804, LogLevel.Information, "{Method} refused to the key {Key} of role {Role}")]
    public static partial void NotAllowed(ILogger logger, string method, string key, Role role);

    [LoggerMessage(805, LogLevel.Information, "Key {Key} of role {Role} made by {By}")]
    public static partial void KeyMade(ILogger logger, string key, Role role, string by);

    [LoggerMessage(806, LogLevel.Information, "Key {Key} revoked by {By}")]
    public static partial void KeyRevoked(ILogger logger, string key, string by);
}

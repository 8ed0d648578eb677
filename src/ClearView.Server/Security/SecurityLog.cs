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
}

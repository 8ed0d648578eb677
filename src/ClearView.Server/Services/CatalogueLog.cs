namespace ClearView.Server.Services;

/// <summary>What the catalogue service writes to the log.</summary>
internal static partial class CatalogueLog
{
    [LoggerMessage(300, LogLevel.Information, "Method {Name} stored as version {Version}")]
    public static partial void Stored(ILogger logger, string name, long version);
}

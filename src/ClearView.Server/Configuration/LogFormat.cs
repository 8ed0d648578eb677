namespace ClearView.Server.Configuration;

/// <summary>Form of the log lines.</summary>
public enum LogFormat
{
    /// <summary>A line of text that a person reads.</summary>
    Text,

    /// <summary>A JSON object per line that a log collector reads.</summary>
    Json,
}

namespace ClearView.Server.Configuration;

/// <summary>The configuration is at fault; the message says which option, and what would be right.</summary>
public sealed class ServerOptionsException : Exception
{
    /// <summary>Creates the exception without a message.</summary>
    public ServerOptionsException()
    {
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="message">Which option is at fault, and what would be right.</param>
    public ServerOptionsException(string message)
        : base(message)
    {
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="message">Which option is at fault, and what would be right.</param>
    /// <param name="innerException">The cause.</param>
    public ServerOptionsException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}

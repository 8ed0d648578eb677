namespace ClearView.Records.Exchange;

/// <summary>A store cannot be copied, or the copy is not the same; nothing was kept in the target.</summary>
public sealed class StoreCopyException : Exception
{
    /// <summary>Creates the exception without a message.</summary>
    public StoreCopyException()
    {
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="message">What is wrong, and what to do.</param>
    public StoreCopyException(string message)
        : base(message)
    {
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="message">What is wrong, and what to do.</param>
    /// <param name="innerException">The cause.</param>
    public StoreCopyException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}

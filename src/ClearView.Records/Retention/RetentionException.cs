namespace ClearView.Records.Retention;

/// <summary>A month cannot be retired; it is in the store as it was.</summary>
public sealed class RetentionException : Exception
{
    /// <summary>Creates the exception without a message.</summary>
    public RetentionException()
    {
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="message">What is wrong, and what to do.</param>
    public RetentionException(string message)
        : base(message)
    {
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="message">What is wrong, and what to do.</param>
    /// <param name="innerException">The cause.</param>
    public RetentionException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}

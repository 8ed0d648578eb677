namespace ClearView.Records.Model;

/// <summary>The store cannot be read or written now. Trying again is safe.</summary>
public sealed class StoreUnavailableException : Exception
{
    /// <summary>Creates the exception without a message.</summary>
    public StoreUnavailableException()
    {
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="message">What happened.</param>
    public StoreUnavailableException(string message)
        : base(message)
    {
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="message">What happened.</param>
    /// <param name="innerException">The cause.</param>
    public StoreUnavailableException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}

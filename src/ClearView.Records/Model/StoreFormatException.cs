namespace ClearView.Records.Model;

/// <summary>A file or database cannot serve as the store: it is something else, or a newer version wrote it.</summary>
public sealed class StoreFormatException : Exception
{
    /// <summary>Creates the exception without a message.</summary>
    public StoreFormatException()
    {
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="message">What is wrong with the file, and what to do.</param>
    public StoreFormatException(string message)
        : base(message)
    {
    }

    /// <summary>Creates the exception.</summary>
    /// <param name="message">What is wrong with the file, and what to do.</param>
    /// <param name="innerException">The cause.</param>
    public StoreFormatException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}

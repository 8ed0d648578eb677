namespace ClearView.Quality.Lots;

/// <summary>Lots that cannot be compared: one only, two of the same name, or too many.</summary>
public sealed class LotException : ArgumentException
{
    /// <summary>Without a message.</summary>
    public LotException()
    {
    }

    /// <summary>With a message.</summary>
    /// <param name="message">What is wrong, with figures.</param>
    public LotException(string message)
        : base(message)
    {
    }

    /// <summary>With a message and the failure beneath.</summary>
    /// <param name="message">What is wrong, with figures.</param>
    /// <param name="innerException">The failure beneath.</param>
    public LotException(string message, Exception innerException)
        : base(message, innerException)
    {
    }

    /// <summary>With a message and the argument.</summary>
    /// <param name="message">What is wrong, with figures.</param>
    /// <param name="paramName">Name of the argument.</param>
    public LotException(string message, string paramName)
        : base(message, paramName)
    {
    }
}

namespace ClearView.Client;

/// <summary>A key or certificate cannot be used. The message says so in plain words, and never shows a key.</summary>
public sealed class ClearViewCredentialsException : Exception
{
    internal ClearViewCredentialsException(string message, Exception? inner = null)
        : base(message, inner)
    {
    }
}

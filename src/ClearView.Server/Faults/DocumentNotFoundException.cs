namespace ClearView.Server.Faults;

/// <summary>No document has the name, or not in the version, that a request asks for.</summary>
internal sealed class DocumentNotFoundException : Exception
{
    public DocumentNotFoundException()
    {
    }

    public DocumentNotFoundException(string message)
        : base(message)
    {
    }

    public DocumentNotFoundException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}

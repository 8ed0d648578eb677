namespace ClearView.Server.Faults;

/// <summary>No method has the name, or not in the version, that a request asks for.</summary>
internal sealed class MethodNotFoundException : Exception
{
    public MethodNotFoundException()
    {
    }

    public MethodNotFoundException(string message)
        : base(message)
    {
    }

    public MethodNotFoundException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}

using ClearView.V1;

namespace ClearView.Server.Receiving;

/// <summary>The bytes of a message are no message of the type that the rpc takes. A stream can be read on behind it.</summary>
internal sealed class MalformedMessageException : Exception
{
    public MalformedMessageException()
        : this(new FieldViolation())
    {
    }

    public MalformedMessageException(string message)
        : this(new FieldViolation { Description = message })
    {
    }

    public MalformedMessageException(string message, Exception innerException)
        : base(message, innerException) => Violation = new FieldViolation { Description = message };

    public MalformedMessageException(FieldViolation violation)
        : base(violation.Description) => Violation = violation;

    /// <summary>What is at fault.</summary>
    public FieldViolation Violation { get; }
}

using ClearView.V1;

namespace ClearView.Server.Receiving;

/// <summary>What came over the wire where a message was due: the message, or why it is none.</summary>
/// <typeparam name="T">Type of the message.</typeparam>
internal sealed class Received<T>
    where T : class
{
    private readonly T? _message;
    private readonly FieldViolation? _fault;

    /// <summary>A message.</summary>
    public Received(T message) => _message = message;

    /// <summary>Bytes that are none.</summary>
    public Received(FieldViolation fault) => _fault = fault;

    /// <summary>The message.</summary>
    /// <exception cref="MalformedMessageException">There is none.</exception>
    public T Message => _message ?? throw new MalformedMessageException(_fault!);
}

namespace ClearView.Records.Model;

/// <summary>A method as it is handed to the store.</summary>
/// <remarks>The method itself is opaque to the store: it gives back the bytes that it was given.</remarks>
public sealed record MethodEntry
{
    /// <summary>The name; not empty. Names sort by the bytes of their UTF-8.</summary>
    public required string Name { get; init; }

    /// <summary>What the method is for.</summary>
    public required string Description { get; init; }

    /// <summary>The method, serialised.</summary>
    public required ReadOnlyMemory<byte> Method { get; init; }

    /// <summary>Who stores it.</summary>
    public required string StoredBy { get; init; }

    /// <summary>Whether the other entry says the same: name, description and method, whoever stores it.</summary>
    /// <param name="other">The other entry.</param>
    public bool SaysTheSameAs(MethodEntry other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Name == other.Name && Description == other.Description && Method.Span.SequenceEqual(other.Method.Span);
    }
}

namespace ClearView.Records.Model;

/// <summary>A document as it is handed to the store.</summary>
/// <remarks>The document itself is opaque to the store: it gives back the bytes that it was given.</remarks>
public sealed record VersionedEntry
{
    /// <summary>The name; not empty. Names sort by the bytes of their UTF-8.</summary>
    public required string Name { get; init; }

    /// <summary>What the document is for.</summary>
    public required string Description { get; init; }

    /// <summary>The document, serialised.</summary>
    public required ReadOnlyMemory<byte> Body { get; init; }

    /// <summary>Who stores it.</summary>
    public required string StoredBy { get; init; }

    /// <summary>Whether the other entry says the same: name, description and body, whoever stores it.</summary>
    /// <param name="other">The other entry.</param>
    public bool SaysTheSameAs(VersionedEntry other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Name == other.Name && Description == other.Description && Body.Span.SequenceEqual(other.Body.Span);
    }
}

using ClearView.Records.Model;
using ClearView.V1;

using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;

namespace ClearView.Server.Mapping;

/// <summary>Specifications and references under names: from the wire to the store and back.</summary>
internal static class NamedSpecifications
{
    /// <summary>The store's form of a specification that was checked and completed.</summary>
    public static VersionedEntry ToEntry(StoreSpecificationRequest request, Specification complete) => new()
    {
        Name = request.Name,
        Description = request.Description,
        Body = complete.ToByteArray(),
        StoredBy = request.StoredBy,
    };

    /// <summary>The wire's form of a stored specification.</summary>
    public static NamedSpecification ToNamedSpecification(StoredVersion stored) => new()
    {
        SpecificationName = new SpecificationName { Name = stored.Entry.Name, Version = (uint)stored.Version },
        Description = stored.Entry.Description,
        Specification = Specification.Parser.ParseFrom(stored.Entry.Body.Span),
        StoredBy = stored.Entry.StoredBy,
        StoredAt = stored.StoredAt.ToTimestamp(),
    };

    /// <summary>The store's form of a reference, whose body holds what the store does not know itself.</summary>
    public static VersionedEntry ToEntry(StoreReferenceRequest request, CielabColour colour, LightAndObserver light) => new()
    {
        Name = request.Name,
        Description = request.Description,
        Body = new NamedReference { ReadingId = request.ReadingId, Colour = colour, LightAndObserver = light }.ToByteArray(),
        StoredBy = request.StoredBy,
    };

    /// <summary>The wire's form of a stored reference.</summary>
    public static NamedReference ToNamedReference(StoredVersion stored)
    {
        var reference = NamedReference.Parser.ParseFrom(stored.Entry.Body.Span);
        reference.ReferenceName = new ReferenceName { Name = stored.Entry.Name, Version = (uint)stored.Version };
        reference.Description = stored.Entry.Description;
        reference.StoredBy = stored.Entry.StoredBy;
        reference.StoredAt = stored.StoredAt.ToTimestamp();
        return reference;
    }
}

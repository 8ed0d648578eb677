using ClearView.Records.Model;
using ClearView.V1;

using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;

using Method = ClearView.V1.Method;

namespace ClearView.Server.Mapping;

/// <summary>Methods under names: from the wire to the store and back.</summary>
internal static class NamedMethods
{
    /// <summary>The store's form of a method that was checked.</summary>
    public static VersionedEntry ToEntry(StoreMethodRequest request) => new()
    {
        Name = request.Name,
        Description = request.Description,
        Body = request.Method.ToByteArray(),
        StoredBy = request.StoredBy,
    };

    /// <summary>The wire's form of a stored method.</summary>
    public static NamedMethod ToNamedMethod(StoredVersion stored) => new()
    {
        MethodName = new MethodName { Name = stored.Entry.Name, Version = (uint)stored.Version },
        Description = stored.Entry.Description,
        Method = Method.Parser.ParseFrom(stored.Entry.Body.Span),
        StoredBy = stored.Entry.StoredBy,
        StoredAt = stored.StoredAt.ToTimestamp(),
    };
}

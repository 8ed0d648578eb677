using ClearView.Records.Model;
using ClearView.Server.Mapping;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>Looks for a reading that a caller named.</summary>
internal static class ReadingLookup
{
    /// <summary>Finds it.</summary>
    /// <exception cref="RpcException">NOT_FOUND: it is not stored, or was retired with its month.</exception>
    public static async Task<StoredReading> RequireAsync(this IReadingStore store, Guid id, CancellationToken cancellationToken) =>
        await store.FindAsync(id, cancellationToken).ConfigureAwait(false)
        ?? throw new RpcException(new Status(
            StatusCode.NotFound,
            await store.FindRetiredAsync(id, cancellationToken).ConfigureAwait(false) is { } retired
                ? $"Reading {ReadingIds.Write(id)} was {retired}."
                : $"No reading {ReadingIds.Write(id)} is stored."));
}

using System.Collections.Immutable;

using ClearView.Records.Model;

using Google.Protobuf;

namespace ClearView.Server.Security;

/// <summary>Keeps keys in a store.</summary>
internal sealed class KeyBook([FromKeyedServices(VersionedKind.Key)] IVersionedStore store)
{
    /// <summary>Reads every key.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public async Task<KeyRing> ReadAsync(CancellationToken cancellationToken)
    {
        var versions = ImmutableArray.CreateBuilder<StoredVersion>();
        var query = new VersionQuery { AllVersions = true, PageSize = 1000 };
        while (true)
        {
            var page = await store.ListAsync(query, cancellationToken).ConfigureAwait(false);
            versions.AddRange(page.Versions);
            if (!page.HasMore)
            {
                return KeyRing.From(versions);
            }

            var last = page.Versions[^1];
            query = query with { After = new VersionPosition(last.Entry.Name, last.Version) };
        }
    }

    /// <summary>Keeps a new key.</summary>
    /// <returns>Whether the name was free; otherwise the new key opens nothing.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot take it now.</exception>
    public async Task<bool> TryAddAsync(KeyRecord key)
    {
        if (await store.FindAsync(key.Name, 1, CancellationToken.None).ConfigureAwait(false) is not null)
        {
            return false;
        }

        var outcome = await store.StoreAsync(ToEntry(key, key.CreatedBy), CancellationToken.None).ConfigureAwait(false);
        return outcome.Version.Version == 1;
    }

    /// <summary>Revokes a key for good.</summary>
    /// <param name="key">The key, not yet revoked.</param>
    /// <param name="by">Who revokes it.</param>
    /// <param name="now">When.</param>
    /// <returns>The key as it is now.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot take it now.</exception>
    public async Task<KeyRecord> RevokeAsync(KeyRecord key, string by, DateTimeOffset now)
    {
        var revoked = key with { RevokedAt = now, RevokedBy = by };
        await store.StoreAsync(ToEntry(revoked, by), CancellationToken.None).ConfigureAwait(false);
        return revoked;
    }

    private static VersionedEntry ToEntry(KeyRecord key, string by) => new()
    {
        Name = key.Name,
        Description = key.Description,
        Body = key.ToStored().ToByteArray(),
        StoredBy = by,
    };
}

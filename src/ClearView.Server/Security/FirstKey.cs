using System.Globalization;

using ClearView.Records.Model;
using ClearView.V1;

namespace ClearView.Server.Security;

/// <summary>The first administrator's key, made in the store itself: on a server that asks for keys nobody could ask for one.</summary>
public static class FirstKey
{
    private const string UsualName = "administrator";

    /// <summary>Makes it, for 365 days, unless there is a key of an administrator that opens.</summary>
    /// <param name="store">The store; a server may have it open.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="keep">Takes the secret before the key is stored, so that no key is stored whose secret is lost; what it throws stops it.</param>
    /// <param name="cancellationToken">Stops before the key is kept.</param>
    /// <returns>The key and its secret, which nobody can read again; <see langword="null"/> where an administrator has a key.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be used now.</exception>
    public static async Task<CreateKeyResponse?> TryCreateAsync(
        IStore store, TimeProvider clock, Action<string>? keep = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(clock);
        var book = new KeyBook(store.Documents(VersionedKind.Key));
        var ring = await book.ReadAsync(cancellationToken).ConfigureAwait(false);
        var now = clock.GetUtcNow();
        if (ring.Keys.Any(key => key.Role == Role.Administrator && key.StateAt(now) == KeyState.Active))
        {
            return null;
        }

        var secret = KeySecret.Create();
        keep?.Invoke(secret);

        // Names are not used again, so that one that expired or was revoked gets a successor.
        for (var number = 1; ; number++)
        {
            var key = new KeyRecord
            {
                Name = number == 1 ? UsualName : string.Create(CultureInfo.InvariantCulture, $"{UsualName}-{number}"),
                SecretHash = [.. KeySecret.Hash(secret)],
                Role = Role.Administrator,
                Stations = [],
                ByCertificate = false,
                Description = "The first administrator's key",
                CreatedBy = "bootstrap",
                CreatedAt = now,
                ExpiresAt = now.AddDays(365),
            };
            if (await book.TryAddAsync(key).ConfigureAwait(false))
            {
                return new CreateKeyResponse { Key = key.ToKey(now), Secret = secret };
            }
        }
    }
}

using ClearView.V1;

namespace ClearView.Client;

/// <content>Keys. Only administrators may call these.</content>
public sealed partial class ClearViewClient
{
    /// <summary>Makes a key. Never repeated: an answer that was lost holds the only copy of the secret.</summary>
    /// <param name="request">What the key may do.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>The key and its secret, which nobody can read again.</returns>
    /// <exception cref="ClearViewCallException">The server refused, a key had the name, or the server could not be reached.</exception>
    public Task<CreateKeyResponse> CreateKeyAsync(CreateKeyRequest request, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        return CallAsync(call => _access.CreateKeyAsync(request, call), cancellationToken);
    }

    /// <summary>Lists every key by name, without its secret.</summary>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused or could not be reached.</exception>
    public async Task<IReadOnlyList<Key>> ListKeysAsync(CancellationToken cancellationToken = default) =>
        (await CallAsync(call => _access.ListKeysAsync(new ListKeysRequest(), call), cancellationToken).ConfigureAwait(false)).Keys;

    /// <summary>Revokes a key for good.</summary>
    /// <param name="name">Its name.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>The key.</returns>
    /// <exception cref="ClearViewCallException">The server refused, has no such key, or could not be reached.</exception>
    public async Task<Key> RevokeKeyAsync(string name, CancellationToken cancellationToken = default) =>
        (await CallAsync(call => _access.RevokeKeyAsync(new RevokeKeyRequest { Name = name }, call), cancellationToken).ConfigureAwait(false)).Key;
}

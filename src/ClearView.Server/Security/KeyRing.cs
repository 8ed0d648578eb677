using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Security.Cryptography;

using ClearView.Records.Model;
using ClearView.V1;

namespace ClearView.Server.Security;

/// <summary>Every key that a store held at a moment.</summary>
/// <remarks>
/// The first version of a name is the key for good. A later version can revoke it, and nothing else: where two administrators take
/// one name at once, the second one's document changes nothing.
/// </remarks>
internal sealed class KeyRing
{
    private readonly FrozenDictionary<string, KeyRecord> _byName;
    private readonly FrozenDictionary<UInt128, KeyRecord> _byHashStart;

    private KeyRing(IEnumerable<KeyRecord> keys)
    {
        Keys = [.. keys];
        _byName = Keys.ToFrozenDictionary(key => key.Name, StringComparer.Ordinal);
        _byHashStart = Keys.Where(key => !key.ByCertificate).ToFrozenDictionary(key => StartOf(key.SecretHash.AsSpan()));
    }

    /// <summary>The keys, by name.</summary>
    public ImmutableArray<KeyRecord> Keys { get; }

    /// <summary>Puts versions together, which come by name and then by version.</summary>
    public static KeyRing From(IEnumerable<StoredVersion> versions)
    {
        Dictionary<string, KeyRecord> keys = new(StringComparer.Ordinal);
        foreach (var version in versions)
        {
            var next = Read(version);
            if (!keys.TryGetValue(next.Name, out var first))
            {
                keys[next.Name] = next;
            }
            else if (first.RevokedAt is null && next.RevokedAt is not null && next.SecretHash.AsSpan().SequenceEqual(first.SecretHash.AsSpan()))
            {
                keys[next.Name] = first with { RevokedAt = next.RevokedAt, RevokedBy = version.Entry.StoredBy };
            }
        }

        return new KeyRing(keys.Values);
    }

    /// <summary>The key of a secret's hash; <see langword="null"/> when there is none.</summary>
    public KeyRecord? FindByHash(ReadOnlySpan<byte> hash) =>
        _byHashStart.TryGetValue(StartOf(hash), out var key) && CryptographicOperations.FixedTimeEquals(key.SecretHash.AsSpan(), hash) ? key : null;

    /// <summary>The key of a name; <see langword="null"/> when there is none.</summary>
    public KeyRecord? FindByName(string name) => _byName.GetValueOrDefault(name);

    // A caller cannot choose the hash of what it sends, so that the time of this look-up tells it nothing about other keys.
    private static UInt128 StartOf(ReadOnlySpan<byte> hash) => System.Buffers.Binary.BinaryPrimitives.ReadUInt128BigEndian(hash);

    private static KeyRecord Read(StoredVersion version)
    {
        var stored = StoredKey.Parser.ParseFrom(version.Entry.Body.Span);
        return new KeyRecord
        {
            Name = version.Entry.Name,
            SecretHash = [.. stored.SecretSha256.Span],
            Role = stored.Role,
            Stations = [.. stored.Stations],
            ByCertificate = stored.ByCertificate,
            Description = version.Entry.Description,
            CreatedBy = version.Entry.StoredBy,
            CreatedAt = stored.CreatedAt.ToDateTimeOffset(),
            ExpiresAt = stored.ExpiresAt.ToDateTimeOffset(),
            RevokedAt = stored.RevokedAt?.ToDateTimeOffset(),
            RevokedBy = stored.RevokedAt is null ? "" : version.Entry.StoredBy,
        };
    }
}

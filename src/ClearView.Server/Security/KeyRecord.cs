using System.Collections.Immutable;

using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Server.Security;

/// <summary>A key as its versions in the store tell it.</summary>
internal sealed record KeyRecord
{
    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>SHA-256 of its secret.</summary>
    public required ImmutableArray<byte> SecretHash { get; init; }

    /// <summary>What it may do.</summary>
    public required Role Role { get; init; }

    /// <summary>Production lines that it may post for; only of the role of a line.</summary>
    public required ImmutableArray<string> Stations { get; init; }

    /// <summary>Whether its holder shows a certificate.</summary>
    public required bool ByCertificate { get; init; }

    /// <summary>What it is for.</summary>
    public required string Description { get; init; }

    /// <summary>Who made it.</summary>
    public required string CreatedBy { get; init; }

    /// <summary>When it was made.</summary>
    public required DateTimeOffset CreatedAt { get; init; }

    /// <summary>When its time is over.</summary>
    public required DateTimeOffset ExpiresAt { get; init; }

    /// <summary>When it was revoked; <see langword="null"/> while it is not.</summary>
    public DateTimeOffset? RevokedAt { get; init; }

    /// <summary>Who revoked it; empty while it is not.</summary>
    public string RevokedBy { get; init; } = "";

    /// <summary>What has become of it at a time.</summary>
    public KeyState StateAt(DateTimeOffset now) =>
        RevokedAt is not null ? KeyState.Revoked : now >= ExpiresAt ? KeyState.Expired : KeyState.Active;

    /// <summary>The store's form.</summary>
    public StoredKey ToStored() => new()
    {
        SecretSha256 = Google.Protobuf.ByteString.CopyFrom(SecretHash.AsSpan()),
        Role = Role,
        Stations = { Stations },
        ByCertificate = ByCertificate,
        CreatedAt = CreatedAt.ToTimestamp(),
        ExpiresAt = ExpiresAt.ToTimestamp(),
        RevokedAt = RevokedAt?.ToTimestamp(),
    };

    /// <summary>The form of the wire, without anything that opens.</summary>
    public Key ToKey(DateTimeOffset now) => new()
    {
        Name = Name,
        Role = Role,
        Stations = { Stations },
        ByCertificate = ByCertificate,
        Description = Description,
        CreatedBy = CreatedBy,
        CreatedAt = CreatedAt.ToTimestamp(),
        ExpiresAt = ExpiresAt.ToTimestamp(),
        RevokedBy = RevokedBy,
        RevokedAt = RevokedAt?.ToTimestamp(),
        State = StateAt(now),
        Fingerprint = Convert.ToHexStringLower(SecretHash.AsSpan()[^2..]),
    };
}

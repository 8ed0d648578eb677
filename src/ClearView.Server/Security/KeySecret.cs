using System.Buffers.Text;
using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;
using System.Text;

namespace ClearView.Server.Security;

/// <summary>Secrets of keys: "cvk_" and 32 random bytes in base64url (RFC 4648, section 5) without padding.</summary>
/// <remarks>
/// A secret is random and long, so that a plain SHA-256 of it cannot be searched back; slow password hashes are for what people choose.
/// The prefix lets scanners of repositories and logs find a secret that went astray.
/// </remarks>
internal static class KeySecret
{
    /// <summary>What every secret begins with.</summary>
    public const string Prefix = "cvk_";

    private const int RandomBytes = 32;
    private const int Length = 4 + 43;

    /// <summary>A new secret.</summary>
    public static string Create() => Prefix + Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(RandomBytes));

    /// <summary>What is kept of a secret.</summary>
    public static byte[] Hash(string secret) => SHA256.HashData(Encoding.ASCII.GetBytes(secret));

    /// <summary>What is kept of a text, where it has the form of a secret.</summary>
    public static bool TryHash(string text, [NotNullWhen(true)] out byte[]? hash)
    {
        var hasForm = text.Length == Length && text.StartsWith(Prefix, StringComparison.Ordinal) && Base64Url.IsValid(text.AsSpan(Prefix.Length));
        hash = hasForm ? Hash(text) : null;
        return hasForm;
    }
}

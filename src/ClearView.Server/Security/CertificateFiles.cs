using System.Security.Cryptography;
using System.Text;

using ClearView.Server.Configuration;

namespace ClearView.Server.Security;

/// <summary>What the files of certificates hold at a moment.</summary>
/// <param name="Certificate">The server's certificate.</param>
/// <param name="Key">The private key, where it has a file of its own.</param>
/// <param name="Password">The password of the private key.</param>
/// <param name="Authorities">The authorities of client certificates.</param>
internal sealed record CertificateFiles(byte[] Certificate, byte[]? Key, string? Password, byte[]? Authorities)
{
    /// <summary>Reads the files.</summary>
    /// <exception cref="IOException">A file cannot be read.</exception>
    /// <exception cref="UnauthorizedAccessException">A file may not be read.</exception>
    public static CertificateFiles Read(ServerOptions options) => new(
        File.ReadAllBytes(options.Certificate!),
        options.CertificateKey is { } key ? File.ReadAllBytes(key) : null,
        options.CertificatePasswordFile is { } password ? File.ReadLines(password).FirstOrDefault() ?? "" : null,
        options.ClientCertificateAuthorities is { } authorities ? File.ReadAllBytes(authorities) : null);

    /// <summary>SHA-256 over everything, which tells whether anything has changed.</summary>
    public byte[] Digest()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var part in (byte[]?[])[Certificate, Key, Password is null ? null : Encoding.UTF8.GetBytes(Password), Authorities])
        {
            hash.AppendData(BitConverter.GetBytes(part?.Length ?? -1));
            hash.AppendData(part ?? []);
        }

        return hash.GetHashAndReset();
    }
}

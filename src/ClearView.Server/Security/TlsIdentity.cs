using System.Security.Cryptography;

using ClearView.Server.Configuration;

using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Https;

namespace ClearView.Server.Security;

/// <summary>The server's certificate and whom it trusts, as the files say at the moment of each handshake.</summary>
/// <remarks>
/// Files are read and compared at every handshake: that costs a fraction of the handshake itself, no change can be missed, and none
/// needs the server to be told. Files that cannot be used leave what was in use; connections that stand go on with what they began with.
/// </remarks>
internal sealed class TlsIdentity(ServerOptions options, TimeProvider clock, ILogger<TlsIdentity> logger)
{
    private readonly Lock _lock = new();
    private byte[] _seen = [];
    private TlsMaterial? _current;

    /// <summary>Reads the files for the first time; does nothing where the server has no certificate.</summary>
    /// <exception cref="ServerOptionsException">They cannot be used.</exception>
    public void Load()
    {
        if (options.Certificate is null)
        {
            return;
        }

        try
        {
            var files = CertificateFiles.Read(options);
            Take(TlsMaterial.From(files), files.Digest());
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or CryptographicException)
        {
            throw new ServerOptionsException($"certificate: {options.Certificate} and the files beside it cannot be used: {error.Message}", error);
        }
    }

    /// <summary>Makes an address serve TLS alone.</summary>
    public void Secure(ListenOptions listen) => listen.UseHttps(new TlsHandshakeCallbackOptions
    {
        OnConnection = _ => ValueTask.FromResult(Current().ToOptions()),
    });

    /// <summary>What the next handshake is made with.</summary>
    public TlsMaterial Current()
    {
        lock (_lock)
        {
            TakeWhatChanged();
            return _current!;
        }
    }

    private void TakeWhatChanged()
    {
        try
        {
            var files = CertificateFiles.Read(options);
            var digest = files.Digest();
            if (digest.AsSpan().SequenceEqual(_seen))
            {
                return;
            }

            // Seen, even where it cannot be used: a file at fault is told once, not with every connection.
            _seen = digest;
            Take(TlsMaterial.From(files), digest);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            // Between two steps of a change a file may be missing; the next handshake looks again.
            if (_seen.Length > 0)
            {
                _seen = [];
                SecurityLog.CertificateKept(logger, error.Message);
            }
        }
        catch (CryptographicException error)
        {
            SecurityLog.CertificateKept(logger, error.Message);
        }
    }

    private void Take(TlsMaterial material, byte[] digest)
    {
        _seen = digest;
        _current = material;
        var certificate = material.Context.TargetCertificate;
        SecurityLog.CertificateTaken(logger, certificate.Subject, certificate.NotAfter.ToUniversalTime());
        if (certificate.NotAfter.ToUniversalTime() < clock.GetUtcNow().UtcDateTime)
        {
            SecurityLog.CertificateExpired(logger, certificate.Subject);
        }
    }
}

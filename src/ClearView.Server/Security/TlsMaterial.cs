using System.Net.Security;
using System.Security.Authentication;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;

namespace ClearView.Server.Security;

/// <summary>What a TLS handshake is made with.</summary>
/// <param name="Context">The server's certificate, with those between it and its authority.</param>
/// <param name="Authorities">Authorities whose client certificates are accepted; <see langword="null"/> where none are asked for.</param>
internal sealed record TlsMaterial(SslStreamCertificateContext Context, X509Certificate2Collection? Authorities)
{
    // RFC 5280, section 4.2.1.12: id-kp-clientAuth.
    private const string ClientAuthentication = "1.3.6.1.5.5.7.3.2";

    /// <summary>Makes it of what the files hold.</summary>
    /// <exception cref="CryptographicException">A file holds no certificate, or the key does not belong to it.</exception>
    public static TlsMaterial From(CertificateFiles files)
    {
        try
        {
            var (certificate, others) = ReadIdentity(files);

            // Offline: the chain is what the file holds; nothing is fetched during a handshake.
            var context = SslStreamCertificateContext.Create(certificate, others, offline: true);
            return new TlsMaterial(context, files.Authorities is null ? null : ReadPem(files.Authorities));
        }
        catch (ArgumentException error)
        {
            // What PEM readers throw for text that holds no such thing, or for a key of another certificate.
            throw new CryptographicException(error.Message, error);
        }
    }

    /// <summary>Options of one handshake.</summary>
    public SslServerAuthenticationOptions ToOptions() => new()
    {
        ServerCertificateContext = Context,
        EnabledSslProtocols = SslProtocols.Tls12 | SslProtocols.Tls13,

        // A resumed session would not look at the client's certificate again.
        AllowTlsResume = Authorities is null,

        // Asked for, not insisted on: who shows none may have a key. One that is shown must hold.
        ClientCertificateRequired = Authorities is not null,
        CertificateChainPolicy = Authorities is null ? null : ClientChains(Authorities),
        RemoteCertificateValidationCallback = (_, certificate, _, errors) => certificate is null || errors == SslPolicyErrors.None,
    };

    private static X509ChainPolicy ClientChains(X509Certificate2Collection authorities)
    {
        var policy = new X509ChainPolicy
        {
            TrustMode = X509ChainTrustMode.CustomRootTrust,
            RevocationMode = X509RevocationMode.NoCheck,
            DisableCertificateDownloads = true,
            ApplicationPolicy = { new Oid(ClientAuthentication) },
        };
        policy.CustomTrustStore.AddRange(authorities);
        return policy;
    }

    private static (X509Certificate2 Certificate, X509Certificate2Collection Others) ReadIdentity(CertificateFiles files)
    {
        if (!IsPem(files.Certificate))
        {
            var all = X509CertificateLoader.LoadPkcs12Collection(files.Certificate, files.Password);
            var own = all.FirstOrDefault(certificate => certificate.HasPrivateKey)
                ?? throw new CryptographicException("it holds no certificate with a private key.");
            all.Remove(own);
            return (own, all);
        }

        var chain = Encoding.UTF8.GetString(files.Certificate);
        var key = files.Key is null ? chain : Encoding.UTF8.GetString(files.Key);
        var certificate = files.Password is null
            ? X509Certificate2.CreateFromPem(chain, key)
            : X509Certificate2.CreateFromEncryptedPem(chain, key, files.Password);
        var others = ReadPem(files.Certificate);
        others.RemoveAt(0);
        return (certificate, others);
    }

    private static X509Certificate2Collection ReadPem(byte[] file)
    {
        var certificates = new X509Certificate2Collection();
        certificates.ImportFromPem(Encoding.UTF8.GetString(file));
        return certificates.Count > 0 ? certificates : throw new CryptographicException("it holds no certificate in PEM.");
    }

    private static bool IsPem(byte[] file) => file.AsSpan().IndexOf("-----BEGIN "u8) >= 0;
}

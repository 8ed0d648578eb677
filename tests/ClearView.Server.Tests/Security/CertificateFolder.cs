using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

using ClearView.Server.Configuration;

namespace ClearView.Server.Tests.Security;

/// <summary>A folder with the files of certificates that a server reads.</summary>
internal sealed class CertificateFolder : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-certificates-");

    public string Certificate => PathOf("server.pem");

    public string Key => PathOf("server.key");

    public string Authorities => PathOf("clients.pem");

    public string PathOf(string name) => Path.Combine(_folder.FullName, name);

    public void Put(X509Certificate2 certificate)
    {
        File.WriteAllText(Certificate, certificate.ExportCertificatePem());
        File.WriteAllText(Key, KeyOf(certificate));
    }

    public static string KeyOf(X509Certificate2 certificate)
    {
        using var key = certificate.GetECDsaPrivateKey()!;
        return key.ExportPkcs8PrivateKeyPem();
    }

    public static string EncryptedKeyOf(X509Certificate2 certificate, string password)
    {
        using var key = certificate.GetECDsaPrivateKey()!;
        return key.ExportEncryptedPkcs8PrivateKeyPem(password, new PbeParameters(PbeEncryptionAlgorithm.Aes256Cbc, HashAlgorithmName.SHA256, 1000));
    }

    public ServerOptions Secure(ServerOptions options) => options with { Certificate = Certificate, CertificateKey = Key };

    public ServerOptions WithClients(ServerOptions options) =>
        Secure(options) with { ClientCertificateAuthorities = Authorities, Access = AccessMode.Keys };

    /// <summary>What a client connects with that trusts one authority alone.</summary>
    public static SocketsHttpHandler Trusting(TestAuthority authority, X509Certificate2? own = null) => new()
    {
        SslOptions = new SslClientAuthenticationOptions
        {
            CertificateChainPolicy = new X509ChainPolicy
            {
                TrustMode = X509ChainTrustMode.CustomRootTrust,
                RevocationMode = X509RevocationMode.NoCheck,
                CustomTrustStore = { authority.Certificate },
            },
            ClientCertificates = own is null ? null : [own],
            LocalCertificateSelectionCallback = own is null ? null : (_, _, _, _, _) => own,
        },
    };

    public void Dispose() => _folder.Delete(recursive: true);
}

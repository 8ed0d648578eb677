using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ClearView.Server.Tests.Security;

/// <summary>An authority of its own that issues certificates for a test.</summary>
internal sealed class TestAuthority : IDisposable
{
    // RFC 5280, section 4.2.1.12: id-kp-serverAuth and id-kp-clientAuth.
    private static readonly Oid ServerAuthentication = new("1.3.6.1.5.5.7.3.1");
    private static readonly Oid ClientAuthentication = new("1.3.6.1.5.5.7.3.2");

    private readonly ECDsa _key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
    private int _issued;

    public TestAuthority(string name)
    {
        var request = new CertificateRequest($"CN={name}", _key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, false, 0, true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.KeyCertSign, true));
        Certificate = request.CreateSelfSigned(Today.AddYears(-2), Today.AddYears(10));
    }

    public X509Certificate2 Certificate { get; }

    public string Pem => Certificate.ExportCertificatePem();

    private static DateTimeOffset Today => DateTimeOffset.UtcNow;

    public X509Certificate2 Server(string name = "server") => Issue(name, ServerAuthentication, Today.AddYears(1));

    public X509Certificate2 Client(string name) => Issue(name, ClientAuthentication, Today.AddYears(1));

    public X509Certificate2 ExpiredClient(string name) => Issue(name, ClientAuthentication, Today.AddDays(-1));

    public void Dispose()
    {
        Certificate.Dispose();
        _key.Dispose();
    }

    private X509Certificate2 Issue(string name, Oid use, DateTimeOffset until)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest($"CN={name}", key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(false, false, 0, true));
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([use], false));
        var names = new SubjectAlternativeNameBuilder();
        names.AddIpAddress(IPAddress.Loopback);
        request.CertificateExtensions.Add(names.Build());
        using var signed = request.Create(Certificate, Today.AddYears(-1), until, BitConverter.GetBytes(++_issued));
        return signed.CopyWithPrivateKey(key);
    }
}

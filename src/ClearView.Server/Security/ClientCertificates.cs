using System.Security.Cryptography.X509Certificates;

namespace ClearView.Server.Security;

/// <summary>Whom a client certificate names.</summary>
internal static class ClientCertificates
{
    // X.520, as in RFC 5280, appendix A.1: id-at-commonName.
    private const string CommonName = "2.5.4.3";

    /// <summary>The common name of a certificate that was checked in the handshake; <see langword="null"/> where it has none, or several.</summary>
    public static string? NameOf(X509Certificate2 certificate)
    {
        var names = certificate.SubjectName.EnumerateRelativeDistinguishedNames()
            .Where(name => !name.HasMultipleElements && name.GetSingleElementType().Value == CommonName)
            .Select(name => name.GetSingleElementValue())
            .ToList();
        return names.Count == 1 ? names[0] : null;
    }
}

using System.Net.Security;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

using Grpc.Core;
using Grpc.Net.Client;

namespace ClearView.Client.Calls;

/// <summary>What credentials mean for a channel.</summary>
internal static class ChannelSecurity
{
    /// <summary>What a channel sends with every call.</summary>
    /// <param name="options">Takes the key; holds the credentials of the connection.</param>
    /// <param name="servers">The servers, all of one scheme.</param>
    /// <param name="credentials">The credentials.</param>
    /// <exception cref="ClearViewCredentialsException">The key would travel in the clear.</exception>
    public static void AddKey(GrpcChannelOptions options, ServerAddresses servers, ClearViewCredentials credentials)
    {
        if (credentials.Key is not { } key)
        {
            return;
        }

        var isEncrypted = servers.All[0].Scheme == Uri.UriSchemeHttps;
        if (!isEncrypted && servers.All.FirstOrDefault(server => !server.IsLoopback) is { } address)
        {
            throw new ClearViewCredentialsException(
                $"the key is not sent to {address.Authority} in the clear: name the server as https://{address.Authority}");
        }

        // A line break would end the header; nothing but the characters of a key gets there.
        if (key.AsSpan().ContainsAnyExceptInRange('!', '~'))
        {
            throw new ClearViewCredentialsException("the key has characters that no key has; give the text that was shown when it was made");
        }

        var call = CallCredentials.FromInterceptor((_, headers) =>
        {
            headers.Add("authorization", "Bearer " + key);
            return Task.CompletedTask;
        });
        options.Credentials = ChannelCredentials.Create(options.Credentials!, call);
        options.UnsafeUseInsecureChannelCallCredentials = !isEncrypted;
    }

    /// <summary>Whom a connection trusts, and what it shows.</summary>
    /// <exception cref="ClearViewCredentialsException">A file cannot be used.</exception>
    public static SslClientAuthenticationOptions ToTls(ClearViewCredentials credentials)
    {
        var options = new SslClientAuthenticationOptions();
        if (credentials.AuthorityFile is { } authorities)
        {
            options.CertificateChainPolicy = new X509ChainPolicy
            {
                TrustMode = X509ChainTrustMode.CustomRootTrust,
                RevocationMode = X509RevocationMode.NoCheck,
            };
            options.CertificateChainPolicy.CustomTrustStore.AddRange(Use(authorities, () => ReadAll(authorities)));
        }

        if (credentials.CertificateFile is { } file)
        {
            options.ClientCertificateContext = Use(file, () =>
            {
                var certificate = X509Certificate2.CreateFromPemFile(file, credentials.CertificateKeyFile);
                var others = ReadAll(file);
                others.RemoveAt(0);
                return SslStreamCertificateContext.Create(certificate, others, offline: true);
            });
        }
        else if (credentials.CertificateKeyFile is { } key)
        {
            throw new ClearViewCredentialsException($"{key} is the key of a certificate, and no certificate is named");
        }

        return options;
    }

    private static X509Certificate2Collection ReadAll(string file)
    {
        var certificates = new X509Certificate2Collection();
        certificates.ImportFromPemFile(file);
        return certificates.Count > 0 ? certificates : throw new CryptographicException("it holds no certificate in PEM.");
    }

    private static T Use<T>(string file, Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or CryptographicException or ArgumentException)
        {
            throw new ClearViewCredentialsException($"{file} and what belongs to it cannot be used: {e.Message}", e);
        }
    }
}

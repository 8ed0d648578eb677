using System.Text;

namespace ClearView.Client;

/// <summary>Who the client is, and which server it trusts. What is absent is not shown; without an authority the machine's own count.</summary>
public sealed record ClearViewCredentials
{
    /// <summary>Environment variable with a key.</summary>
    public const string KeyVariable = "CLEARVIEW_KEY";

    /// <summary>Environment variable that names the file of the server's authority.</summary>
    public const string AuthorityVariable = "CLEARVIEW_CA";

    /// <summary>Secret of the key. It is sent over TLS alone, or to this machine.</summary>
    public string? Key { get; init; }

    /// <summary>File with the authorities, in PEM, that the server's certificate must come from.</summary>
    public string? AuthorityFile { get; init; }

    /// <summary>File with the client's certificate, in PEM, and those between it and its authority.</summary>
    public string? CertificateFile { get; init; }

    /// <summary>File with the private key of <see cref="CertificateFile"/>, in PEM; <see langword="null"/> where that file holds it.</summary>
    public string? CertificateKeyFile { get; init; }

    /// <summary>Credentials from files, with the environment where no file is named.</summary>
    /// <param name="keyFile">File whose first line is the key; <see langword="null"/> takes it from <see cref="KeyVariable"/>.</param>
    /// <param name="authorityFile">The authorities; <see langword="null"/> takes <see cref="AuthorityVariable"/>.</param>
    /// <param name="certificateFile">The client's certificate.</param>
    /// <param name="certificateKeyFile">Its private key.</param>
    /// <exception cref="ClearViewCredentialsException">The file of the key cannot be read.</exception>
    public static ClearViewCredentials Read(
        string? keyFile = null, string? authorityFile = null, string? certificateFile = null, string? certificateKeyFile = null) => new()
        {
            Key = keyFile is null ? FromEnvironment(KeyVariable) : FirstLine(keyFile),
            AuthorityFile = authorityFile ?? FromEnvironment(AuthorityVariable),
            CertificateFile = certificateFile,
            CertificateKeyFile = certificateKeyFile,
        };

    // A record prints its members; the key is none of them.
    private bool PrintMembers(StringBuilder text)
    {
        text.Append(Key is null ? "no key" : "a key");
        return true;
    }

    private static string? FromEnvironment(string variable) => Environment.GetEnvironmentVariable(variable) is { Length: > 0 } value ? value.Trim() : null;

    private static string FirstLine(string file)
    {
        try
        {
            return File.ReadLines(file).FirstOrDefault()?.Trim() is { Length: > 0 } key
                ? key
                : throw new ClearViewCredentialsException($"{file} holds no key.");
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new ClearViewCredentialsException($"the key cannot be read: {e.Message}", e);
        }
    }
}

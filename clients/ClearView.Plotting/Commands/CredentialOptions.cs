using System.CommandLine;

using ClearView.Client;

namespace ClearView.Plotting.Commands;

/// <summary>The options that say who calls a server, and which server is trusted.</summary>
public sealed class CredentialOptions
{
    private readonly Option<string?> _keyFile = new("--key-file")
    {
        HelpName = "FILE",
        Description = $"File whose first line is your key. [default: the key in {ClearViewCredentials.KeyVariable}]",
    };

    private readonly Option<string?> _authority = new("--ca")
    {
        HelpName = "FILE",
        Description = $"Authority of the server's certificate, PEM. [default: {ClearViewCredentials.AuthorityVariable}, else the machine's]",
    };

    private readonly Option<string?> _certificate = new("--client-certificate")
    {
        HelpName = "FILE",
        Description = "Your certificate, PEM, where you have one instead of a key.",
    };

    private readonly Option<string?> _certificateKey = new("--client-certificate-key")
    {
        HelpName = "FILE",
        Description = "Its private key, PEM. [default: in the certificate's file]",
    };

    /// <summary>The options, for a command to add.</summary>
    public IEnumerable<Option> All => [_keyFile, _authority, _certificate, _certificateKey];

    /// <summary>What a client is made with.</summary>
    /// <exception cref="ClearViewCredentialsException">The file of the key cannot be read.</exception>
    public ClearViewClientOptions Read(ParseResult parsed)
    {
        ArgumentNullException.ThrowIfNull(parsed);
        return new ClearViewClientOptions
        {
            Credentials = ClearViewCredentials.Read(
                parsed.GetValue(_keyFile), parsed.GetValue(_authority), parsed.GetValue(_certificate), parsed.GetValue(_certificateKey)),
        };
    }
}

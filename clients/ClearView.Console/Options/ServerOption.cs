using System.CommandLine;

using ClearView.Client;
using ClearView.Console.Commands;
using ClearView.Plotting.Commands;

namespace ClearView.Console.Options;

/// <summary>The option that names the server.</summary>
/// <param name="description">What the server is asked for.</param>
internal sealed class ServerOption(string description)
{
    /// <summary>Where a server listens unless it is told otherwise.</summary>
    public const string DefaultAddress = "127.0.0.1:5180";

    /// <summary>Environment variable that replaces the default.</summary>
    public const string Variable = "CLEARVIEW_SERVER";

    private readonly Option<string?> _server = new("--server", "-s")
    {
        HelpName = "ADDRESS",
        Description = description,
    };

    private readonly CredentialOptions _credentials = new();

    /// <summary>Creates the option of a command that evaluates, or cannot do without a server.</summary>
    /// <param name="isOptional">Whether the command also works without a server, and does so unless one is named.</param>
    public ServerOption(bool isOptional)
        : this(isOptional
            ? $"Let this server evaluate, for example {DefaultAddress}. Without it everything is computed here."
            : $"The server's address. [default: {Variable} if it is set, else {DefaultAddress}]")
    {
    }

    /// <summary>Adds the option to a command, and those that say who calls.</summary>
    /// <returns>The option.</returns>
    public Option AddTo(Command command)
    {
        command.Add(_server);
        foreach (var option in _credentials.All)
        {
            command.Add(option);
        }

        return _server;
    }

    /// <summary>Whether a server was named on the command line.</summary>
    public bool IsGiven(ParseResult parsed) => parsed.GetValue(_server) is not null;

    /// <summary>A client for the server.</summary>
    /// <exception cref="UsageException">The address is none.</exception>
    /// <exception cref="ClearViewCredentialsException">A key or certificate cannot be used.</exception>
    public ClearViewClient Connect(ParseResult parsed)
    {
        var text = parsed.GetValue(_server) ?? Environment.GetEnvironmentVariable(Variable) ?? "";
        return ClearViewClient.Connect(ToUri(text.Length == 0 ? DefaultAddress : text), _credentials.Read(parsed));
    }

    /// <summary>The address as a URI; without a scheme it is HTTP/2 without TLS.</summary>
    /// <exception cref="UsageException">The address is none.</exception>
    public static Uri ToUri(string text)
    {
        var full = text.Contains("://", StringComparison.Ordinal) ? text : $"http://{text}";
        return Uri.TryCreate(full, UriKind.Absolute, out var uri) && (uri.Scheme == Uri.UriSchemeHttp || uri.Scheme == Uri.UriSchemeHttps)
            ? uri
            : throw new UsageException($"\"{text}\" is not a server's address; write HOST:PORT, for example {DefaultAddress}");
    }
}

using System.CommandLine;

using ClearView.Client;
using ClearView.Console.Commands;
using ClearView.Plotting.Commands;

namespace ClearView.Console.Options;

/// <summary>The option that names the server.</summary>
/// <param name="description">What the server is asked for.</param>
internal sealed class ServerOption(string description)
{
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
            ? $"Let this server evaluate, for example {ServerAddresses.Default}. Without it everything is computed here."
            : $"The server's address; several that share a store with commas between. [default: {Variable} if it is set, else {ServerAddresses.Default}]")
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

    /// <summary>A client for the server, or for the servers that share a store.</summary>
    /// <exception cref="UsageException">An address is none.</exception>
    /// <exception cref="ClearViewCredentialsException">A key or certificate cannot be used.</exception>
    public ClearViewClient Connect(ParseResult parsed)
    {
        var text = parsed.GetValue(_server) ?? Environment.GetEnvironmentVariable(Variable) ?? "";
        try
        {
            return ClearViewClient.Connect(ServerAddresses.Parse(text.Length == 0 ? ServerAddresses.Default : text), _credentials.Read(parsed));
        }
        catch (FormatException e)
        {
            throw new UsageException(e.Message);
        }
    }
}

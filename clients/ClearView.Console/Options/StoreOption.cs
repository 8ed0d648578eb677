using System.CommandLine;

namespace ClearView.Console.Options;

/// <summary>The options that name a store which is opened here, without a server.</summary>
/// <param name="description">What is done with the store.</param>
/// <param name="isRequired">Whether the command cannot do without.</param>
internal sealed class StoreOption(string description, bool isRequired)
{
    private readonly Option<string?> _store = new("--store") { HelpName = "STORE", Required = isRequired, Description = description };

    private readonly PasswordFileOption _passwordFile = new();

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(Command command)
    {
        command.Add(_store);
        _passwordFile.AddTo(command);
    }

    /// <summary>The store's name; <see langword="null"/> where none was given.</summary>
    public string? Find(ParseResult parsed) => parsed.GetValue(_store);

    /// <summary>The store's name, where it is required.</summary>
    public string Resolve(ParseResult parsed) => parsed.GetRequiredValue(_store)!;

    /// <summary>File with the password of the database; <see langword="null"/> leaves it to PGPASSWORD.</summary>
    public string? PasswordFile(ParseResult parsed) => _passwordFile.Resolve(parsed);
}

using System.CommandLine;

namespace ClearView.Console.Options;

/// <summary>The option that names a file with the password of a database.</summary>
internal sealed class PasswordFileOption
{
    private readonly Option<string?> _file = new("--password-file")
    {
        HelpName = "FILE",
        Description = "File whose first line is the password of the database. [default: PGPASSWORD]",
    };

    /// <summary>Adds the option to a command.</summary>
    public void AddTo(Command command) => command.Add(_file);

    /// <summary>The file; <see langword="null"/> leaves the password to PGPASSWORD.</summary>
    public string? Resolve(ParseResult parsed) => parsed.GetValue(_file);
}

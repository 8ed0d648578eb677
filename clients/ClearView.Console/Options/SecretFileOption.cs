using System.CommandLine;

using ClearView.Console.Commands;

namespace ClearView.Console.Options;

/// <summary>The option that puts a secret into a file instead of on the screen.</summary>
internal sealed class SecretFileOption
{
    private readonly Option<string?> _out = new("--out")
    {
        HelpName = "FILE",
        Description = "New file for the secret, which only you may read. [default: it is shown on the screen]",
    };

    /// <summary>Adds the option to a command.</summary>
    public void AddTo(Command command) => command.Add(_out);

    /// <summary>Makes the file; <see langword="null"/> where none is asked for.</summary>
    /// <exception cref="UsageException">There is such a file.</exception>
    /// <exception cref="IOException">It cannot be made.</exception>
    public SecretFile? Open(ParseResult parsed)
    {
        if (parsed.GetValue(_out) is not { } path)
        {
            return null;
        }
        return File.Exists(path) ? throw new UsageException($"{path} exists; name a new file for the secret") : new SecretFile(path);
    }
}

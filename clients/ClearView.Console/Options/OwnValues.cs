using System.CommandLine;

using ClearView.Client.Files;
using ClearView.Console.Rendering;

using ValueTable = ClearView.Client.Files.ValueTable;

namespace ClearView.Console.Options;

/// <summary>The argument and options for a table of values of the user's own, instead of readings that a server keeps.</summary>
internal sealed class OwnValues
{
    private readonly Argument<string?> _file;
    private readonly SeparatorOptions _separators = new();

    /// <summary>Creates them.</summary>
    /// <param name="required">Whether there is nothing but a file to look at.</param>
    public OwnValues(bool required = false) => _file = new("file")
    {
        HelpName = "FILE",
        Arity = required ? ArgumentArity.ExactlyOne : ArgumentArity.ZeroOrOne,
        Description = "A table of values of your own (docs/files.md): one row per specimen, one column per measurand."
            + (required ? "" : " Without it, readings that the server keeps."),
    };

    /// <summary>Adds the argument to a command.</summary>
    public void AddFileTo(Command command) => command.Add(_file);

    /// <summary>Adds the options to a command.</summary>
    /// <returns>The first of them.</returns>
    public Option AddOptionsTo(Command command) => _separators.AddTo(command);

    /// <summary>Whether a file was named.</summary>
    public bool AreGiven(ParseResult parsed) => parsed.GetValue(_file) is not null;

    /// <summary>Reads the file, and tells what was left aside.</summary>
    /// <returns>The table; <see langword="null"/> where no file was named.</returns>
    /// <exception cref="ScanFileException">It cannot be read as it stands.</exception>
    public ValueTable? Read(Screen screen, ParseResult parsed)
    {
        if (parsed.GetValue(_file) is not { } path)
        {
            return null;
        }
        var table = ValueTableReader.Read(path, new ValueTableOptions { Separator = _separators.Separator(parsed), DecimalMark = _separators.DecimalMark(parsed) });
        foreach (var note in table.Notes)
        {
            screen.Note($"{path}: {note}");
        }
        return table;
    }
}

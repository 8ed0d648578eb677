using System.CommandLine;

namespace ClearView.Console.Options;

/// <summary>The options that say how a file separates its cells and writes its decimals.</summary>
internal sealed class SeparatorOptions
{
    private readonly Option<string?> _separator = new("--separator") { HelpName = "NAME", Description = "Separator of cells: comma, semicolon or tab. [default: the one that makes a header row]" };

    private readonly Option<string?> _decimal = new("--decimal") { HelpName = "NAME", Description = "Decimal mark: point or comma. [default: the one that the file uses]" };

    /// <summary>Adds the options to a command.</summary>
    /// <returns>The first of them.</returns>
    public Option AddTo(Command command)
    {
        AcceptWords(_separator, "comma", "semicolon", "tab");
        AcceptWords(_decimal, "point", "comma");
        command.Add(_separator);
        command.Add(_decimal);
        return _separator;
    }

    /// <summary>The separator; <see langword="null"/> where none was given.</summary>
    public char? Separator(ParseResult parsed) => parsed.GetValue(_separator) switch
    {
        "comma" => ',',
        "semicolon" => ';',
        "tab" => '\t',
        _ => null,
    };

    /// <summary>The decimal mark; <see langword="null"/> where none was given.</summary>
    public char? DecimalMark(ParseResult parsed) => parsed.GetValue(_decimal) switch
    {
        "point" => '.',
        "comma" => ',',
        _ => null,
    };

    /// <summary>Lets an option take some words only.</summary>
    public static void AcceptWords(Option<string?> option, params string[] words) => option.Validators.Add(result =>
    {
        if (result.GetValueOrDefault<string?>() is { } given && !words.Contains(given))
        {
            result.AddError($"{option.Name}: write {string.Join(" or ", words)}; \"{given}\" was given");
        }
    });
}

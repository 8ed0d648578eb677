using System.CommandLine;

namespace ClearView.Console.Options;

/// <summary>An option whose text is read when the command line is, so that its error says what would be right.</summary>
/// <typeparam name="T">What the text stands for.</typeparam>
internal sealed class CheckedOption<T>
    where T : class
{
    private readonly Func<string, T?> _read;

    /// <summary>Creates the option.</summary>
    /// <param name="name">Name, with its dashes.</param>
    /// <param name="helpName">What its value is called in the help.</param>
    /// <param name="description">What it is for.</param>
    /// <param name="read">Reads a text; gives <see langword="null"/> where it is none.</param>
    /// <param name="expected">What would be right, for example "write D65/10".</param>
    /// <param name="repeatable">Whether it may be given more than once.</param>
    public CheckedOption(string name, string helpName, string description, Func<string, T?> read, string expected, bool repeatable = false)
    {
        _read = read;
        Option = new Option<string[]>(name)
        {
            HelpName = helpName,
            Description = description,
            Arity = ArgumentArity.OneOrMore,
            AllowMultipleArgumentsPerToken = false,
        };
        Option.Validators.Add(result =>
        {
            if (!repeatable && result.Tokens.Count > 1)
            {
                result.AddError($"{name} is given {result.Tokens.Count} times; give it once");
            }
            foreach (var text in result.Tokens.Select(token => token.Value).Where(text => read(text) is null))
            {
                result.AddError($"{name}: {expected}; \"{text}\" was given");
            }
        });
    }

    /// <summary>The option itself.</summary>
    public Option<string[]> Option { get; }

    /// <summary>What was given; <see langword="null"/> where nothing was.</summary>
    public T? Resolve(ParseResult parsed) => parsed.GetValue(Option) is [var text, ..] ? _read(text) : null;

    /// <summary>All that was given, in its order.</summary>
    public IReadOnlyList<T> ResolveAll(ParseResult parsed) => [.. (parsed.GetValue(Option) ?? []).Select(text => _read(text)!)];
}

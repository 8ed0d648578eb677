using System.CommandLine;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Console.Options;

/// <summary>An option that takes a time.</summary>
internal sealed class TimeOption
{
    private readonly Option<string?> _option;

    /// <summary>Creates the option.</summary>
    public TimeOption(string name, string description)
    {
        _option = new Option<string?>(name)
        {
            HelpName = "TIME",
            Description = $"{description} 2026-03-02T06:00:00Z, or 2026-03-02 for its midnight in UTC.",
        };
        _option.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<string?>() is { } text && TimeText.Parse(text) is null)
            {
                result.AddError($"{name}: write a time with its offset, 2026-03-02T06:00:00Z, or a date, 2026-03-02; \"{text}\" was given");
            }
        });
    }

    /// <summary>Adds the option to a command.</summary>
    public void AddTo(Command command) => command.Add(_option);

    /// <summary>The time; <see langword="null"/> where none was given.</summary>
    public Timestamp? Resolve(ParseResult parsed) =>
        parsed.GetValue(_option) is { } text ? TimeText.Parse(text) : null;
}

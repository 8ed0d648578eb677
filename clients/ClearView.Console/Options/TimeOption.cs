using System.CommandLine;
using System.Globalization;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Console.Options;

/// <summary>An option that takes a time.</summary>
internal sealed class TimeOption
{
    private static readonly string[] DateFormats = ["yyyy-MM-dd"];
    private static readonly string[] TimeFormats = ["yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd'T'HH:mm:ssK", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK"];

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
            if (result.GetValueOrDefault<string?>() is { } text && Parse(text) is null)
            {
                result.AddError($"{name}: write a time with its offset, 2026-03-02T06:00:00Z, or a date, 2026-03-02; \"{text}\" was given");
            }
        });
    }

    /// <summary>Adds the option to a command.</summary>
    public void AddTo(Command command) => command.Add(_option);

    /// <summary>The time; <see langword="null"/> where none was given.</summary>
    public Timestamp? Resolve(ParseResult parsed) =>
        parsed.GetValue(_option) is { } text ? Timestamp.FromDateTime(Parse(text)!.Value) : null;

    private static DateTime? Parse(string text)
    {
        if (DateTime.TryParseExact(text, DateFormats, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out var date))
        {
            return date;
        }
        return DateTime.TryParseExact(text, TimeFormats, CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind, out var time)
            && time.Kind != DateTimeKind.Unspecified
                ? time.ToUniversalTime()
                : null;
    }
}

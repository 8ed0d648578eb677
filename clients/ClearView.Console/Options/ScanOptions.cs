using System.Collections.Immutable;
using System.CommandLine;
using System.CommandLine.Parsing;

using ClearView.Client.Files;
using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The options that say what a scan file does not.</summary>
internal sealed class ScanOptions
{
    private readonly Option<string?> _unit = new("--unit") { HelpName = "UNIT", Description = "Scale of total and diffuse columns whose header gives none: percent or fraction." };

    private readonly Option<string?> _wavelengthUnit = new("--wavelength-unit") { HelpName = "nm", Description = "States that a wavelength column whose header gives no unit is in nm." };

    private readonly SeparatorOptions _separators = new();

    private readonly Option<string[]> _set = new("--set")
    {
        HelpName = "KEY=VALUE",
        Arity = ArgumentArity.OneOrMore,
        AllowMultipleArgumentsPerToken = false,
        Description = $"A value where the file gives none; repeatable. Keys: {string.Join(", ", ScanFileKeys.All)}.",
    };

    private readonly Option<string[]> _override = new("--override")
    {
        HelpName = "KEY=VALUE",
        Arity = ArgumentArity.OneOrMore,
        AllowMultipleArgumentsPerToken = false,
        Description = "A value instead of the one in the file; repeatable.",
    };

    private readonly Option<bool> _acceptGaps = new("--accept-gaps") { Description = "Accept a wavelength missing from an otherwise even scan." };

    private readonly Option<bool> _ignoreColumns = new("--ignore-unknown-columns") { Description = "Leave aside columns that are not known, with a note." };

    /// <summary>Adds the options to a command.</summary>
    /// <returns>The first of them.</returns>
    public Option AddTo(Command command)
    {
        SeparatorOptions.AcceptWords(_unit, "percent", "fraction");
        SeparatorOptions.AcceptWords(_wavelengthUnit, "nm");
        _set.Validators.Add(CheckPairs);
        _override.Validators.Add(CheckPairs);
        command.Add(_unit);
        command.Add(_wavelengthUnit);
        _separators.AddTo(command);
        foreach (var option in (Option[])[_set, _override, _acceptGaps, _ignoreColumns])
        {
            command.Add(option);
        }
        return _unit;
    }

    /// <summary>What was said.</summary>
    public ScanFileOptions Resolve(ParseResult parsed) => new()
    {
        TransmittanceUnit = parsed.GetValue(_unit) switch
        {
            "percent" => TransmittanceUnit.Percent,
            "fraction" => TransmittanceUnit.Fraction,
            _ => null,
        },
        WavelengthsAreNm = parsed.GetValue(_wavelengthUnit) is not null,
        Separator = _separators.Separator(parsed),
        DecimalMark = _separators.DecimalMark(parsed),
        Defaults = ToDictionary(parsed.GetValue(_set)),
        Overrides = ToDictionary(parsed.GetValue(_override)),
        AcceptGaps = parsed.GetValue(_acceptGaps),
        IgnoreUnknownColumns = parsed.GetValue(_ignoreColumns),
    };

    private static void CheckPairs(OptionResult result)
    {
        foreach (var text in result.Tokens.Select(token => token.Value))
        {
            if (Split(text) is null)
            {
                result.AddError($"{result.Option.Name}: write KEY=VALUE with one of {string.Join(", ", ScanFileKeys.All)}; \"{text}\" was given");
            }
        }
    }

    private static ImmutableSortedDictionary<string, string> ToDictionary(string[]? texts)
    {
        var values = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        foreach (var text in texts ?? [])
        {
            var (key, value) = Split(text) ?? throw new InvalidOperationException($"\"{text}\" was not checked.");
            values[key] = value;
        }
        return values.ToImmutable();
    }

    private static (string Key, string Value)? Split(string text)
    {
        var at = text.IndexOf('=', StringComparison.Ordinal);
        return at > 0 && ScanFileKeys.Find(text[..at]) is { } key && text[(at + 1)..].Trim() is { Length: > 0 } value
            ? (key, value)
            : null;
    }
}

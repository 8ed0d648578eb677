using System.CommandLine;

using ClearView.Contract.Methods;
using ClearView.Console.Commands;
using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>The options that state a method. There is no default: a result must not depend on what somebody did not think of.</summary>
internal sealed class MethodOptions
{
    private static readonly Dictionary<string, HazeStandard> Standards = new(StringComparer.Ordinal)
    {
        ["astm-d1003-a"] = HazeStandard.AstmD1003ProcedureA,
        ["astm-d1003-b"] = HazeStandard.AstmD1003ProcedureB,
        ["iso-14782-13468-1"] = HazeStandard.Iso14782Iso134681,
        ["iso-14782-13468-2"] = HazeStandard.Iso14782Iso134682,
    };

    private static readonly Dictionary<string, YellownessIndex> Indices = new(StringComparer.Ordinal)
    {
        ["e313"] = YellownessIndex.AstmE313,
        ["d1925"] = YellownessIndex.AstmD1925,
    };

    private readonly Option<string?> _preset = new("--method", "-m")
    {
        HelpName = "NAME",
        Description = "Method by name: " + string.Join("; ", BuiltInMethods.All.Select(preset => $"{preset.Name} ({preset.Description})"))
            + ". The options below replace parts of it, or state a method without a name.",
    };

    private readonly Option<string?> _standard = new("--haze-standard")
    {
        HelpName = "STANDARD",
        Description = $"Standard of haze and luminous transmittance: {string.Join(", ", Standards.Keys)}.",
    };

    private readonly Option<string?> _luminous = new("--luminous")
    {
        HelpName = "PAIR",
        Description = "Illuminant and observer of haze and luminous transmittance, for example C/2 or D65/2 (A, C, D50, D65; 2, 10).",
    };

    private readonly Option<string?> _colour = new("--colour")
    {
        HelpName = "PAIR",
        Description = "Illuminant and observer of the colour, for example D65/10.",
    };

    private readonly Option<string?> _yellowness = new("--yellowness")
    {
        HelpName = "INDICES",
        Description = "Yellowness indices, separated by commas: e313, d1925; or none.",
    };

    /// <summary>Adds the options to a command.</summary>
    public void AddTo(Command command)
    {
        _preset.Validators.Add(result => Check(result.GetValueOrDefault<string?>(), name => BuiltInMethods.Find(name) is not null, result.AddError,
            $"--method: there are {string.Join(", ", BuiltInMethods.All.Select(preset => preset.Name))}"));
        _standard.Validators.Add(result => Check(result.GetValueOrDefault<string?>(), Standards.ContainsKey, result.AddError,
            $"--haze-standard: there are {string.Join(", ", Standards.Keys)}"));
        foreach (var pair in (Option<string?>[])[_luminous, _colour])
        {
            pair.Validators.Add(result => Check(result.GetValueOrDefault<string?>(), text => Pairs.Parse(text) is not null, result.AddError,
                $"{pair.Name}: write ILLUMINANT/OBSERVER, for example D65/10 (A, C, D50 or D65; 2 or 10)"));
        }
        _yellowness.Validators.Add(result => Check(result.GetValueOrDefault<string?>(), text => ParseIndices(text) is not null, result.AddError,
            $"--yellowness: write {string.Join(", ", Indices.Keys)} (separated by commas) or none"));
        command.Add(_preset);
        command.Add(_standard);
        command.Add(_luminous);
        command.Add(_colour);
        command.Add(_yellowness);
    }

    /// <summary>The method that was stated.</summary>
    /// <exception cref="UsageException">It was not, or not in full.</exception>
    public Method Resolve(ParseResult parsed)
    {
        var method = parsed.GetValue(_preset) is { } name ? BuiltInMethods.Find(name)!.Method.Clone() : new Method();
        if (parsed.GetValue(_standard) is { } standard)
        {
            method.HazeStandard = Standards[standard];
        }
        if (parsed.GetValue(_luminous) is { } luminous)
        {
            method.Luminous = Pairs.Parse(luminous);
        }
        if (parsed.GetValue(_colour) is { } colour)
        {
            method.Colour = Pairs.Parse(colour);
        }
        if (parsed.GetValue(_yellowness) is { } yellowness)
        {
            method.YellownessIndices.Clear();
            method.YellownessIndices.Add(ParseIndices(yellowness)!);
        }
        return method.HazeStandard != HazeStandard.Unspecified && method.Luminous is not null && method.Colour is not null
            ? method
            : throw new UsageException(
                "the method is not stated in full: give --method NAME (" + string.Join(", ", BuiltInMethods.All.Select(preset => preset.Name))
                + "), or all of --haze-standard, --luminous and --colour");
    }

    private static List<YellownessIndex>? ParseIndices(string text)
    {
        if (text == "none")
        {
            return [];
        }
        var parts = text.Split(',', StringSplitOptions.TrimEntries);
        return parts.All(Indices.ContainsKey) && parts.Distinct(StringComparer.Ordinal).Count() == parts.Length
            ? [.. parts.Select(part => Indices[part])]
            : null;
    }

    private static void Check(string? given, Func<string, bool> isRight, Action<string> addError, string expected)
    {
        if (given is not null && !isRight(given))
        {
            addError($"{expected}; \"{given}\" was given");
        }
    }
}

using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.RegularExpressions;

using ClearView.Optics.Evaluations;

namespace ClearView.Console.Judging;

/// <summary>A limit on one measurand, for example "haze&lt;=2.0". It compares the unrounded value, and the limit itself is kept.</summary>
/// <param name="Measurand">What is limited.</param>
/// <param name="IsUpper">Whether the value may be at most the limit; otherwise it must be at least the limit.</param>
/// <param name="Value">The limit, in the measurand's unit.</param>
/// <param name="ValueText">The limit as it was written.</param>
internal sealed partial record Limit(Measurand Measurand, bool IsUpper, double Value, string ValueText)
{
    /// <summary>Reads a limit.</summary>
    /// <param name="text">For example "haze&lt;=2.0", "luminous_transmittance &gt;= 90 %".</param>
    /// <param name="limit">The limit, where there is one.</param>
    /// <param name="fault">What would be right, where there is none.</param>
    public static bool TryParse(string text, [NotNullWhen(true)] out Limit? limit, [NotNullWhen(false)] out string? fault)
    {
        limit = null;
        fault = null;
        if (Form().Match(text) is not { Success: true } match)
        {
            fault = $"\"{text}\" is not a limit; write MEASURAND<=NUMBER or MEASURAND>=NUMBER, for example \"haze<=2.0\" (in quotes)";
            return false;
        }
        var id = match.Groups["id"].Value;
        if (!Measurand.TryFind(id, out var measurand))
        {
            fault = $"\"{id}\" is not a measurand; there are {string.Join(", ", Measurand.All.Select(one => one.Id))}";
            return false;
        }
        if (match.Groups["unit"].Value is { Length: > 0 } unit && unit != measurand.Unit)
        {
            fault = measurand.Unit.Length == 0 ? $"{id} has no unit, \"{unit}\" was given" : $"{id} is in {measurand.Unit}, \"{unit}\" was given";
            return false;
        }
        var number = match.Groups["number"].Value;
        var value = double.Parse(number, CultureInfo.InvariantCulture);
        if (!double.IsFinite(value))
        {
            fault = $"\"{number}\" is too large for a limit";
            return false;
        }
        limit = new Limit(measurand, match.Groups["sign"].Value == "<=", value, number);
        return true;
    }

    /// <summary>Whether a value keeps the limit.</summary>
    /// <param name="value">The value, in the measurand's unit, unrounded; <see langword="null"/> where there is none.</param>
    public Judgement Judge(double? value)
    {
        if (value is not { } given)
        {
            return Judgement.Open;
        }
        return (IsUpper ? given <= Value : given >= Value) ? Judgement.Pass : Judgement.Fail;
    }

    /// <summary>The limit in words and signs, with its unit.</summary>
    public override string ToString()
    {
        var unit = Measurand.Unit.Length > 0 ? $" {Measurand.Unit}" : "";
        return $"{Measurand.Name} {(IsUpper ? "≤" : "≥")} {ValueText}{unit}";
    }

    [GeneratedRegex(@"^\s*(?<id>[a-z0-9_]+)\s*(?<sign><=|>=)\s*(?<number>[+-]?[0-9]+(\.[0-9]+)?)\s*(?<unit>%|nm|°)?\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex Form();
}

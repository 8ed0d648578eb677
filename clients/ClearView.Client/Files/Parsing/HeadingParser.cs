using System.Text.RegularExpressions;

namespace ClearView.Client.Files.Parsing;

/// <summary>Understands headers such as "total (%)", "total_percent", "Tt [fraction]", "λ / nm" and "F-0012 diffuse (%)".</summary>
internal static partial class HeadingParser
{
    private static readonly Dictionary<string, Quantity> Names = new(StringComparer.OrdinalIgnoreCase)
    {
        ["wavelength"] = Quantity.Wavelength,
        ["lambda"] = Quantity.Wavelength,
        ["λ"] = Quantity.Wavelength,
        ["total"] = Quantity.Total,
        ["total transmittance"] = Quantity.Total,
        ["tt"] = Quantity.Total,
        ["τt"] = Quantity.Total,
        ["diffuse"] = Quantity.Diffuse,
        ["diffuse transmittance"] = Quantity.Diffuse,
        ["td"] = Quantity.Diffuse,
        ["τd"] = Quantity.Diffuse,
        ["t1"] = Quantity.T1,
        ["τ1"] = Quantity.T1,
        ["t2"] = Quantity.T2,
        ["τ2"] = Quantity.T2,
        ["t3"] = Quantity.T3,
        ["τ3"] = Quantity.T3,
        ["t4"] = Quantity.T4,
        ["τ4"] = Quantity.T4,
    };

    /// <summary>Understands one header.</summary>
    public static Heading Parse(string text, int column)
    {
        if (ScanFileKeys.Find(text) is { } key && key != ScanFileKeys.TransmittanceUnit)
        {
            return new Heading(column, text, null, null, null, key);
        }
        if (string.Equals(text, "nm", StringComparison.OrdinalIgnoreCase))
        {
            return new Heading(column, text, Quantity.Wavelength, null, "nm", null);
        }
        var (name, unit) = SplitUnit(text);
        name = name.Replace('_', ' ').Trim();
        if (Names.TryGetValue(name, out var whole))
        {
            return new Heading(column, text, whole, null, unit, null);
        }
        // The wide form: the specimen keeps its own spelling, underscores included.
        var (original, _) = SplitUnit(text);
        foreach (var (word, quantity) in Names.OrderByDescending(pair => pair.Key.Length))
        {
            if (quantity != Quantity.Wavelength
                && original.EndsWith(" " + word, StringComparison.OrdinalIgnoreCase)
                && original[..^(word.Length + 1)].Trim() is { Length: > 0 } specimen)
            {
                return new Heading(column, text, quantity, specimen, unit, null);
            }
        }
        return new Heading(column, text, null, null, null, null);
    }

    /// <summary>Name and unit of a header; the unit as "percent", "fraction", "nm" or as it stands, <see langword="null"/> where there is none.</summary>
    public static (string Name, string? Unit) SplitUnit(string text)
    {
        if (BracketedUnit().Match(text) is { Success: true } bracketed)
        {
            return (bracketed.Groups["name"].Value.Trim(), Normalise(bracketed.Groups["unit"].Value));
        }
        if (SuffixUnit().Match(text) is { Success: true } suffixed)
        {
            return (suffixed.Groups["name"].Value.Trim(), Normalise(suffixed.Groups["unit"].Value));
        }
        return (text.Trim(), null);
    }

    private static string? Normalise(string unit) => unit.Trim() switch
    {
        "" => null,
        "%" => "percent",
        "1" => "fraction",
        var other => other.ToLowerInvariant(),
    };

    // "total (%)", "Tt [fraction]"
    [GeneratedRegex(@"^(?<name>.+?)\s*[\(\[](?<unit>[^\(\)\[\]]*)[\)\]]$", RegexOptions.CultureInvariant)]
    private static partial Regex BracketedUnit();

    // "total_percent", "wavelength nm", "λ / nm", "total, %", "total %"
    [GeneratedRegex(@"^(?<name>.+?)\s*[_\s/,]\s*(?<unit>%|percent|fraction|nm|um|µm)$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex SuffixUnit();
}

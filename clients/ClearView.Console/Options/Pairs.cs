using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>Reads pairs of illuminant and observer such as "C/2" and "D65/10".</summary>
internal static class Pairs
{
    private static readonly string[] Illuminants = ["A", "C", "D50", "D65"];

    /// <summary>Illuminant C, 2° observer.</summary>
    public static LightAndObserver C2 { get; } = new() { Illuminant = "C", Observer = Observer.Cie19312Deg };

    /// <summary>Illuminant D65, 2° observer.</summary>
    public static LightAndObserver D65Deg2 { get; } = new() { Illuminant = "D65", Observer = Observer.Cie19312Deg };

    /// <summary>Illuminant D65, 10° observer.</summary>
    public static LightAndObserver D65Deg10 { get; } = new() { Illuminant = "D65", Observer = Observer.Cie196410Deg };

    /// <summary>Reads a pair; <see langword="null"/> where it is none.</summary>
    public static LightAndObserver? Parse(string text)
    {
        var parts = text.Split('/');
        if (parts.Length != 2 || Illuminants.FirstOrDefault(one => string.Equals(one, parts[0].Trim(), StringComparison.OrdinalIgnoreCase)) is not { } illuminant)
        {
            return null;
        }
        return parts[1].Trim().TrimEnd('°') switch
        {
            "2" => new LightAndObserver { Illuminant = illuminant, Observer = Observer.Cie19312Deg },
            "10" => new LightAndObserver { Illuminant = illuminant, Observer = Observer.Cie196410Deg },
            _ => null,
        };
    }
}

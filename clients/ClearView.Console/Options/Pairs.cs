using ClearView.Optics.Colorimetry;

using LightAndObserver = ClearView.V1.LightAndObserver;
using Observer = ClearView.V1.Observer;

namespace ClearView.Console.Options;

/// <summary>Reads illuminants, observers and pairs of them, such as "C/2", "daylight-5200K/10", "lamp/10".</summary>
internal static class Pairs
{
    /// <summary>What stands for the lamp of --lamp in a pair.</summary>
    public const string Lamp = "lamp";

    /// <summary>Illuminants that can be named, in words.</summary>
    public const string Illuminants = "A, C, D50, D55, D65, D75, E, FL1 to FL12, daylight-5200K (4000-25000 K), planckian-3000K (1000-25000 K)";

    /// <summary>The illuminant's name as it is written; <see langword="null"/> where there is none of that name.</summary>
    public static string? ReadIlluminant(string text) => Illuminant.TryFind(text.Trim(), out var illuminant) ? illuminant.Name : null;

    /// <summary>The observer's field of view, "2" or "10", with or without "°".</summary>
    public static Observer? ReadObserver(string text) => text.Trim().TrimEnd('°') switch
    {
        "2" => Observer.Cie19312Deg,
        "10" => Observer.Cie196410Deg,
        _ => null,
    };

    /// <summary>Reads a pair; <see langword="null"/> where it is none.</summary>
    public static LightAndObserver? Parse(string text)
    {
        var parts = text.Split('/');
        return parts.Length == 2
            && (parts[0].Trim() == Lamp ? Lamp : ReadIlluminant(parts[0])) is { } illuminant
            && ReadObserver(parts[1]) is { } observer
                ? new LightAndObserver { Illuminant = illuminant, Observer = observer }
                : null;
    }
}

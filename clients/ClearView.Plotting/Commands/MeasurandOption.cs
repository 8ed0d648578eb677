using System.CommandLine;

using ClearView.Optics.Evaluations;

namespace ClearView.Plotting.Commands;

/// <summary>The option that names measurands: those of the registry, and those of a method's own bands.</summary>
internal static class MeasurandOption
{
    private const string OwnBandMean = "band_mean_transmittance_";
    private const string OwnBandMaximum = "band_maximum_transmittance_";

    /// <summary>Every measurand in words for the help text.</summary>
    public static string Known => string.Join(", ", Measurands.All.Select(one => one.Id))
        + $"; of an own band {OwnBandMean}400_450, {OwnBandMaximum}400_450";

    /// <summary>A repeatable option.</summary>
    public static Option<string[]> Create(string description)
    {
        var option = new Option<string[]>("--measurand") { HelpName = "ID", Description = description };
        option.Validators.Add(result =>
        {
            foreach (string id in result.Tokens.Select(token => token.Value).Where(id => !IsKnown(id)))
            {
                result.AddError(Fault(id));
            }
        });
        return option;
    }

    /// <summary>Whether some method can give the measurand.</summary>
    public static bool IsKnown(string id) =>
        Measurands.All.Any(one => one.Id == id) || IsOwnBand(id, OwnBandMean) || IsOwnBand(id, OwnBandMaximum);

    public static string Fault(string id) => $"--measurand: there is no \"{id}\"; there are {Known}";

    private static bool IsOwnBand(string id, string prefix) =>
        id.StartsWith(prefix, StringComparison.Ordinal)
        && id.Length > prefix.Length
        && id[prefix.Length..].All(character => char.IsAsciiDigit(character) || character == '_');
}

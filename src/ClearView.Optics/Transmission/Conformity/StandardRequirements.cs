using System.Collections.Frozen;
using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Transmission.Conformity;

/// <summary>What one standard asks of the record of a reading.</summary>
internal sealed class StandardRequirements
{
    private static readonly FrozenDictionary<HazeStandard, StandardRequirements> All =
        HazeStandard.All.ToFrozenDictionary(standard => standard, standard => new StandardRequirements(standard));

    private readonly HazeStandard _standard;
    private readonly string _lightClause;
    private readonly string _light;
    private readonly ImmutableArray<ConformityFinding> _namedLights;

    private StandardRequirements(HazeStandard standard)
    {
        bool astm = standard.HazeName.StartsWith("ASTM", StringComparison.Ordinal);
        string name = astm ? "ASTM D1003" : "ISO 14782";
        string conditioning = astm ? "ASTM D1003, conditioning (ASTM D618)" : "ISO 14782, conditioning (ISO 291)";
        _standard = standard;
        _lightClause = $"{name}, light source and observer";
        _light = string.Join(" or ", standard.NamedPairs);
        _namedLights = [.. standard.NamedPairs.Select(named => Word(named, ConformityOutcome.Met))];
        SpecimenClause = $"{name}, test specimens";
        Haze = new($"{name}, scope", "haze", double.NegativeInfinity, standard.HighestHazePercent, "%");
        SpecimenCount = new(SpecimenClause, "number of specimens", 3, double.PositiveInfinity, "");
        Temperature = new(conditioning, "temperature", 21, 25, "°C");
        Humidity = new(conditioning, "relative humidity", 40, 60, "%");
        ConditioningTime = new(conditioning, "time of conditioning", 40, double.PositiveInfinity, "h");
        PortArea = new($"{name}, apparatus", "port area of the sphere", double.NegativeInfinity, astm ? 4 : 3, "%");
    }

    /// <summary>Clause of the specimens.</summary>
    public string SpecimenClause { get; }

    /// <summary>Haze, %.</summary>
    public ConformityRequirement Haze { get; }

    /// <summary>Number of specimens.</summary>
    public ConformityRequirement SpecimenCount { get; }

    /// <summary>Temperature of conditioning, °C.</summary>
    public ConformityRequirement Temperature { get; }

    /// <summary>Relative humidity of conditioning, %.</summary>
    public ConformityRequirement Humidity { get; }

    /// <summary>Time of conditioning, h.</summary>
    public ConformityRequirement ConditioningTime { get; }

    /// <summary>Area of all ports over the inner area of the sphere, %.</summary>
    public ConformityRequirement PortArea { get; }

    /// <summary>The requirements of a standard.</summary>
    public static StandardRequirements Of(HazeStandard standard) => All[standard];

    /// <summary>Whether the standard names the illuminant and observer of the result.</summary>
    /// <param name="luminous">Illuminant and observer.</param>
    public ConformityFinding JudgeLight(LightAndObserver luminous)
    {
        int named = _standard.NamedPairs.IndexOf(luminous);
        return named >= 0 ? _namedLights[named] : Word(luminous, ConformityOutcome.NotMet);
    }

    private ConformityFinding Word(LightAndObserver luminous, ConformityOutcome outcome) =>
        new(_lightClause, _light, outcome, $"computed for {luminous}");
}

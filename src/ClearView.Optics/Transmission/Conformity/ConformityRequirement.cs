using System.Globalization;

namespace ClearView.Optics.Transmission.Conformity;

/// <summary>A requirement that a recorded figure lies within limits, worded once for every reading that is held against it.</summary>
internal sealed class ConformityRequirement
{
    private readonly double _least;
    private readonly double _most;
    private readonly string _clause;
    private readonly string _requirement;
    private readonly string _suffix;
    private readonly ConformityFinding _notRecorded;

    /// <summary>Words a requirement.</summary>
    /// <param name="clause">Standard and clause, by its heading.</param>
    /// <param name="what">What has to lie within the limits.</param>
    /// <param name="least">Lower limit, inclusive; −∞ where there is none.</param>
    /// <param name="most">Upper limit, inclusive; +∞ where there is none.</param>
    /// <param name="unit">Unit of the figure and the limits; empty where it has none.</param>
    public ConformityRequirement(string clause, string what, double least, double most, string unit)
    {
        _least = least;
        _most = most;
        _clause = clause;
        _suffix = unit.Length == 0 ? "" : $" {unit}";
        _requirement = (double.IsInfinity(least), double.IsInfinity(most)) switch
        {
            (true, _) => string.Create(CultureInfo.InvariantCulture, $"{what} up to {most:0.##}{_suffix}"),
            (_, true) => string.Create(CultureInfo.InvariantCulture, $"{what} {least:0.##}{_suffix} or more"),
            _ => string.Create(CultureInfo.InvariantCulture, $"{what} {least:0.##} to {most:0.##}{_suffix}"),
        };
        _notRecorded = new ConformityFinding(clause, _requirement, ConformityOutcome.NotRecorded, $"{what} not recorded");
    }

    /// <summary>Holds a figure against the limits.</summary>
    /// <param name="recorded">The recorded figure; <see langword="null"/> where there is none.</param>
    public ConformityFinding Judge(double? recorded) => recorded is { } value
        ? new ConformityFinding(
            _clause,
            _requirement,
            value >= _least && value <= _most ? ConformityOutcome.Met : ConformityOutcome.NotMet,
            string.Create(CultureInfo.InvariantCulture, $"{value:0.##}{_suffix}"))
        : _notRecorded;
}

using System.Globalization;
using System.Text.RegularExpressions;

using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Console.Options;

/// <summary>Where the limits of a phase come from, as it was written: a stretch of time, numbers of readings, or known values.</summary>
/// <param name="Name">What began.</param>
/// <param name="From">From when it holds; <see langword="null"/> from the beginning.</param>
/// <param name="Span">The baseline by time; <see langword="null"/> where it is otherwise.</param>
/// <param name="Positions">The baseline by numbers of readings from 1, ends included; <see langword="null"/> where it is otherwise.</param>
/// <param name="Known">Centre and standard deviation; <see langword="null"/> where they are taken from a baseline.</param>
internal sealed partial record PhaseText(string Name, Timestamp? From, MeasuredSpan? Span, (int First, int Last)? Positions, (double Centre, double StandardDeviation)? Known)
{
    /// <summary>Reads a baseline: FROM..TO in times, or FIRST..LAST in numbers of readings.</summary>
    /// <returns>The phase; <see langword="null"/> where the text is neither.</returns>
    public static PhaseText? Baseline(string name, Timestamp? from, string text)
    {
        if (TimeText.ParseSpan(text) is { } span)
        {
            return new PhaseText(name, from, span, null, null);
        }
        return PositionForm().Match(text) is { Success: true } match
            && int.TryParse(match.Groups["first"].Value, CultureInfo.InvariantCulture, out var first)
            && int.TryParse(match.Groups["last"].Value, CultureInfo.InvariantCulture, out var last)
            && first >= 1 && last > first
                ? new PhaseText(name, from, null, (first, last), null)
                : null;
    }

    /// <summary>Reads known values: CENTRE,SIGMA.</summary>
    /// <returns>The phase; <see langword="null"/> where the text is none.</returns>
    public static PhaseText? Values(string name, Timestamp? from, string text) =>
        Numerals.ReadList(text, ',', 2) is [var centre, > 0 and var deviation] ? new PhaseText(name, from, null, null, (centre, deviation)) : null;

    /// <summary>Reads a later phase: NAME@FROM=baseline FROM..TO, or NAME@FROM=known CENTRE,SIGMA.</summary>
    /// <returns>The phase; <see langword="null"/> where the text is none.</returns>
    public static PhaseText? Later(string text)
    {
        if (LaterForm().Match(text) is not { Success: true } match || TimeText.Parse(match.Groups["from"].Value.Trim()) is not { } from)
        {
            return null;
        }
        var (name, limits) = (match.Groups["name"].Value.Trim(), match.Groups["limits"].Value.Trim());
        return name.Length == 0 ? null : match.Groups["kind"].Value == "baseline" ? Baseline(name, from, limits) : Values(name, from, limits);
    }

    [GeneratedRegex(@"^\s*(?<first>[0-9]{1,7})\s*\.\.\s*(?<last>[0-9]{1,7})\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex PositionForm();

    [GeneratedRegex(@"^(?<name>[^@=]+)@(?<from>[^=]+)=\s*(?<kind>baseline|known)\s+(?<limits>.+)$", RegexOptions.CultureInvariant)]
    private static partial Regex LaterForm();
}

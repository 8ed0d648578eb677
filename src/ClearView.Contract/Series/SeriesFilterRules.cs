using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;
using ClearView.V1;

namespace ClearView.Contract.Series;

/// <summary>Rules for which stored readings make a series.</summary>
public static class SeriesFilterRules
{
    /// <summary>Checks every field.</summary>
    /// <param name="filter">The filter as it came; <see langword="null"/> is a violation.</param>
    /// <param name="path">Path of the field, for violations.</param>
    /// <param name="violations">Takes what is at fault.</param>
    /// <returns>What was measured; <see langword="null"/> where that is at fault.</returns>
    public static Measurand? Check(SeriesFilter? filter, string path, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(violations);
        if (filter is null)
        {
            violations.Add(path, $"was missing; expected at least the measurand.");
            return null;
        }

        Measurand? measurand = SeriesMeasurandRules.Read(filter.Measurand, $"{path}.measurand", violations);
        violations.CheckText($"{path}.line", filter.Line);
        violations.CheckText($"{path}.product", filter.Product);
        violations.CheckText($"{path}.lot", filter.Lot);
        violations.CheckText($"{path}.roll", filter.Roll);
        violations.CheckText($"{path}.instrument", filter.Instrument);
        return measurand;
    }

    /// <summary>Checks which stored readings, and of when.</summary>
    /// <param name="stored">The choice as it came.</param>
    /// <param name="path">Path of the field, for violations.</param>
    /// <param name="violations">Takes what is at fault.</param>
    /// <returns>What was measured; <see langword="null"/> where that is at fault.</returns>
    public static Measurand? Check(StoredSeries stored, string path, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(stored);
        Measurand? measurand = Check(stored.Filter, $"{path}.filter", violations);
        MeasuredSpanRules.Check(stored.Span, $"{path}.span", violations);
        return measurand;
    }
}

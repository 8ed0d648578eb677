using System.Collections.Immutable;

using ClearView.Contract.Series;
using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;
using ClearView.Quality.Lots;
using ClearView.V1;

namespace ClearView.Contract.Studies;

/// <summary>Reads lots that the caller brought along, or names of stored ones.</summary>
internal static class LotTableReader
{
    public const int FewestLots = 2;
    public const int MostLots = 20;

    private const int MostMeasurands = 20;
    private const int MostValues = 10_000;

    /// <summary>The tables; meaningful only where no violation was added.</summary>
    public static ImmutableArray<MeasuredLots> Read(GivenLots given, string path, Violations violations)
    {
        if (given.Tables.Count is 0 or > MostMeasurands)
        {
            violations.Add($"{path}.tables", $"had {given.Tables.Count} tables; expected 1 to {MostMeasurands}.");
            return [];
        }

        var seen = new HashSet<string>(StringComparer.Ordinal);
        ImmutableArray<MeasuredLots>.Builder tables = ImmutableArray.CreateBuilder<MeasuredLots>(given.Tables.Count);
        for (int i = 0; i < given.Tables.Count; i++)
        {
            Measurand? measurand = ReadMeasurand(given.Tables[i].Measurand, $"{path}.tables[{i}].measurand", seen, violations);
            Lot?[] lots = ReadLots(given.Tables[i], $"{path}.tables[{i}].lots", violations);
            if (measurand is not null && lots.All(lot => lot is not null))
            {
                tables.Add(new MeasuredLots(measurand, [.. lots.OfType<Lot>()]));
            }
        }

        return tables.ToImmutable();
    }

    /// <summary>The measurands of stored lots; meaningful only where no violation was added.</summary>
    public static ImmutableArray<Measurand> Check(StoredLots stored, string path, Violations violations)
    {
        CheckNames([.. stored.Lots], i => $"{path}.lots[{i}]", $"{path}.lots", violations);
        violations.CheckText($"{path}.product", stored.Product);
        violations.CheckText($"{path}.line", stored.Line);
        MeasuredSpanRules.Check(stored.Span, $"{path}.span", violations);
        if (stored.Measurands.Count is 0 or > MostMeasurands)
        {
            violations.Add($"{path}.measurands", $"had {stored.Measurands.Count} measurands; expected 1 to {MostMeasurands}.");
            return [];
        }

        var seen = new HashSet<string>(StringComparer.Ordinal);
        return
        [
            .. stored.Measurands
                .Select((id, i) => ReadMeasurand(id, $"{path}.measurands[{i}]", seen, violations))
                .OfType<Measurand>(),
        ];
    }

    private static Measurand? ReadMeasurand(string id, string path, HashSet<string> seen, Violations violations)
    {
        Measurand? measurand = SeriesMeasurandRules.Read(id, path, violations);
        if (measurand is not null && !seen.Add(id))
        {
            violations.Add(path, $"was {id} again; expected each measurand once.");
        }

        return measurand;
    }

    private static Lot?[] ReadLots(LotTable table, string path, Violations violations)
    {
        bool named = CheckNames([.. table.Lots.Select(lot => lot.Lot)], i => $"{path}[{i}].lot", path, violations);
        if (table.Lots.Count > MostLots)
        {
            return [null];
        }

        return [.. table.Lots.Select((lot, i) => CheckValues(lot, $"{path}[{i}]", violations) && named
            ? new Lot(lot.Lot, lot.Value, lot.AgeingHours.Count > 0 ? lot.AgeingHours : null)
            : null)];
    }

    private static bool CheckNames(string[] names, Func<int, string> pathOf, string path, Violations violations)
    {
        if (names.Length is < FewestLots or > MostLots)
        {
            violations.Add(path, $"had {names.Length} lots; expected {FewestLots} to {MostLots} to compare.");
            return false;
        }

        var own = new Violations();
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);
        for (int i = 0; i < names.Length; i++)
        {
            own.RequireText(pathOf(i), names[i]);
            if (!seen.TryAdd(names[i], i) && names[i].Length > 0)
            {
                own.Add(pathOf(i), $"was \"{names[i]}\", as lot {seen[names[i]]} is, counted from 0; expected each lot once.");
            }
        }

        violations.AddAll(own);
        return own.IsEmpty;
    }

    private static bool CheckValues(LotValues lot, string path, Violations violations)
    {
        var own = new Violations();
        if (lot.Value.Count is 0 or > MostValues)
        {
            own.Add($"{path}.value", $"had {lot.Value.Count} values; expected 1 to {MostValues}.");
        }
        else
        {
            for (int i = 0; i < lot.Value.Count; i++)
            {
                own.RequireFigure($"{path}.value[{i}]", lot.Value[i]);
            }
        }

        if (lot.AgeingHours.Count > 0 && lot.AgeingHours.Count != lot.Value.Count)
        {
            own.Add($"{path}.ageing_hours", $"had {lot.AgeingHours.Count} entries; expected none, or {lot.Value.Count}, one per value.");
        }

        for (int i = 0; i < Math.Min(lot.AgeingHours.Count, MostValues); i++)
        {
            if (!(lot.AgeingHours[i] >= 0) || !FieldRules.IsFigure(lot.AgeingHours[i]))
            {
                own.Add($"{path}.ageing_hours[{i}]", $"was {lot.AgeingHours[i]}; expected a finite number of hours, 0 or more.");
            }
        }

        violations.AddAll(own);
        return own.IsEmpty;
    }
}

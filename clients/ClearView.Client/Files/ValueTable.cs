using System.Collections.Immutable;

using ClearView.V1;

namespace ClearView.Client.Files;

/// <summary>A table of values, as opposed to scans: one row per specimen or place, one column per measurand.</summary>
/// <param name="FilePath">The file, as its path was given.</param>
/// <param name="Measurands">Identifiers of the measurands that have a column, in the order of the columns.</param>
/// <param name="Rows">The rows, in the order of the file; never empty as it is read.</param>
/// <param name="Notes">What the reader left aside, in words; empty when it used everything.</param>
public sealed record ValueTable(string FilePath, ImmutableArray<string> Measurands, ImmutableArray<ValueRow> Rows, ImmutableArray<string> Notes)
{
    /// <summary>One measurand as a series, by the time of measurement where the table gives it, else in the order of the file.</summary>
    /// <param name="measurand">Identifier of the measurand.</param>
    /// <param name="label">What subgroups are formed by, for example the roll; <see langword="null"/> leaves labels out.</param>
    /// <returns>The series. Rows whose cell is empty are left out of it.</returns>
    /// <exception cref="ScanFileException">No column or no cell has the measurand, or only some of its rows have a time or a place.</exception>
    public GivenSeries ToSeries(string measurand, Func<ValueRow, string>? label = null)
    {
        var rows = RowsWith(measurand);
        var series = new GivenSeries { Measurand = measurand };
        if (HaveAll(rows, ScanFileKeys.MeasuredAt, row => row.MeasuredAt is not null))
        {
            rows = [.. rows.OrderBy(row => row.MeasuredAt!.ToDateTime())];
            series.MeasuredAt.AddRange(rows.Select(row => row.MeasuredAt!));
        }
        series.Value.AddRange(rows.Select(row => row.Values[measurand]));
        if (label is not null)
        {
            series.Label.AddRange(rows.Select(label));
        }
        if (HaveAll(rows, ScanFileKeys.AcrossMm, row => row.AcrossMm is not null))
        {
            series.AcrossMm.AddRange(rows.Select(row => row.AcrossMm!.Value));
        }
        if (HaveAll(rows, ScanFileKeys.AlongM, row => row.AlongM is not null))
        {
            series.AlongM.AddRange(rows.Select(row => row.AlongM!.Value));
        }
        return series;
    }

    /// <summary>One measurand lot by lot, in the order in which the lots begin in the file.</summary>
    /// <param name="measurand">Identifier of the measurand.</param>
    /// <returns>The lots. Rows whose cell is empty are left out.</returns>
    /// <exception cref="ScanFileException">No column or no cell has the measurand, a row names no lot, or only some rows of a lot have an ageing time.</exception>
    public LotTable ToLots(string measurand)
    {
        var rows = RowsWith(measurand);
        if (rows.FirstOrDefault(row => row.Lot.Length == 0) is { } nameless)
        {
            throw new ScanFileException(FilePath, nameless.FileLine, null, "the row names no lot", $"a column \"{ScanFileKeys.Lot}\", filled in each row");
        }
        var table = new LotTable { Measurand = measurand };
        foreach (var lot in rows.GroupBy(row => row.Lot, StringComparer.Ordinal))
        {
            var values = new LotValues { Lot = lot.Key, Value = { lot.Select(row => row.Values[measurand]) } };
            if (HaveAll([.. lot], ValueTableKeys.AgeingHours, row => row.AgeingHours is not null))
            {
                values.AgeingHours.AddRange(lot.Select(row => row.AgeingHours!.Value));
            }
            table.Lots.Add(values);
        }
        return table;
    }

    private ImmutableArray<ValueRow> RowsWith(string measurand)
    {
        if (!Measurands.Contains(measurand))
        {
            throw new ScanFileException(FilePath, null, null, $"no column holds {measurand}", $"a column \"{measurand}\"; there are {string.Join(", ", Measurands)}");
        }
        ImmutableArray<ValueRow> rows = [.. Rows.Where(row => row.Values.ContainsKey(measurand))];
        return rows.Length > 0 ? rows : throw new ScanFileException(FilePath, null, null, $"no row has a value of {measurand}", "one value or more");
    }

    // A study takes a time or a place of each value, or of none.
    private bool HaveAll(ImmutableArray<ValueRow> rows, string column, Func<ValueRow, bool> has)
    {
        if (!rows.Any(has))
        {
            return false;
        }
        return rows.FirstOrDefault(row => !has(row)) is { } without
            ? throw new ScanFileException(FilePath, without.FileLine, null, $"{column} is empty where other rows have it", $"{column} in each row with a value, or in none")
            : true;
    }
}

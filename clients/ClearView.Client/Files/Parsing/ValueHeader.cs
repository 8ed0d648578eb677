using ClearView.Optics.Evaluations;

namespace ClearView.Client.Files.Parsing;

/// <summary>The header row of a table of values, understood.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Separator">Separator of cells.</param>
/// <param name="Width">Number of columns.</param>
/// <param name="Keys">Column, from 1, of each key of <see cref="ValueTableKeys"/> that is there.</param>
/// <param name="Measurands">Measurand and column, from 1, in the order of the columns.</param>
/// <param name="Notes">Columns that are left aside.</param>
internal sealed record ValueHeader(
    int Line, char Separator, int Width, IReadOnlyDictionary<string, int> Keys, IReadOnlyList<(string Name, int Column)> Measurands, IReadOnlyList<string> Notes)
{
    // A header further down than this belongs to another kind of file.
    private const int RowsSearchedForHeader = 200;

    /// <summary>Finds the header: the first row that names a measurand, under the separator that makes most of it.</summary>
    /// <exception cref="ScanFileException">There is none, a column stands twice, or a unit is not the measurand's.</exception>
    public static ValueHeader Find(IReadOnlyList<(string Text, int Line)> rows, string path, char? separator)
    {
        char[] separators = separator is { } given ? [given] : ['\t', ';', ','];
        foreach (var (text, line) in rows.Take(RowsSearchedForHeader))
        {
            var best = separators
                .Select(one => (Separator: one, Cells: SheetReader.TrySplit(text, line, one, path, out var cells) ? cells : []))
                .Select(one => (one.Separator, one.Cells, Known: one.Cells.Count(cell => Key(cell) is not null || Measurand(cell) is not null)))
                .Where(one => one.Cells.Any(cell => Measurand(cell) is not null))
                .OrderByDescending(one => one.Known)
                .FirstOrDefault();
            if (best.Known > 0)
            {
                return Understand(best.Cells, line, best.Separator, path);
            }
        }
        throw new ScanFileException(path, rows.Count > 0 ? rows[0].Line : null, null, "no header row was found",
            $"a header row with a measurand, such as roll, across_mm, haze (columns: {string.Join(", ", ValueTableKeys.All)}, and measurands as \"clearview catalogue measurands\" lists them)");
    }

    private static ValueHeader Understand(string[] cells, int line, char separator, string path)
    {
        var keys = new Dictionary<string, int>(StringComparer.Ordinal);
        var measurands = new List<(string Name, int Column)>();
        var notes = new List<string>();
        for (var i = 0; i < cells.Length; i++)
        {
            if (Key(cells[i]) is { } key)
            {
                if (!keys.TryAdd(key, i + 1))
                {
                    throw Twice(i + 1, key, keys[key]);
                }
            }
            else if (Measurand(cells[i]) is { } measurand)
            {
                CheckUnit(measurand, cells[i], line, i + 1, path);
                if (measurands.FirstOrDefault(one => one.Name == measurand.Id) is { Column: > 0 } first)
                {
                    throw Twice(i + 1, measurand.Id, first.Column);
                }
                measurands.Add((measurand.Id, i + 1));
            }
            else
            {
                notes.Add(cells[i].Length == 0
                    ? $"column {i + 1} has no header; it was left aside"
                    : $"column {i + 1} (\"{cells[i]}\") is not known here; it was left aside");
            }
        }
        return new ValueHeader(line, separator, cells.Length, keys, measurands, notes);

        ScanFileException Twice(int column, string name, int first) =>
            new(path, line, column, $"\"{name}\" already stands in column {first}", "each column once");
    }

    private static string? Key(string text)
    {
        var wanted = text.Trim().Replace(' ', '_');
        return ValueTableKeys.All.FirstOrDefault(key => string.Equals(key, wanted, StringComparison.OrdinalIgnoreCase));
    }

    // Some identifiers end as a unit would, so that the whole header comes first.
    private static Measurand? Measurand(string text) => ByName(text) ?? ByName(HeadingParser.SplitUnit(text).Name);

    private static Measurand? ByName(string text) =>
        Optics.Evaluations.Measurand.TryFind(text.Trim().Replace(' ', '_').ToLowerInvariant(), out var measurand) ? measurand : null;

    private static void CheckUnit(Measurand measurand, string text, int line, int column, string path)
    {
        if (ByName(text) is not null || HeadingParser.SplitUnit(text).Unit is not { } unit)
        {
            return;
        }
        if ((unit == "percent" ? "%" : unit) != measurand.Unit)
        {
            throw new ScanFileException(path, line, column, $"\"{text}\" has the unit \"{unit}\"",
                measurand.Unit.Length > 0 ? $"{measurand.Id} in {measurand.Unit}" : $"{measurand.Id} without a unit");
        }
    }
}

namespace ClearView.Client.Files.Parsing;

/// <summary>Finds separator, header row, keys and rows of a file.</summary>
internal static class SheetReader
{
    // A header further down than this belongs to another kind of file.
    private const int RowsSearchedForHeader = 200;

    private const string HeaderExpected =
        "a header row such as \"wavelength (nm)\", \"total (%)\", \"diffuse (%)\", or \"wavelength (nm)\", T1, T2, T3, T4, or specimen, T1, T2, T3, T4";

    /// <summary>Reads the file's structure.</summary>
    /// <exception cref="ScanFileException">There is no header row, or a row does not fit it.</exception>
    public static Sheet Read(string[] lines, string path, ScanFileOptions options)
    {
        var metadata = new Metadata(path, options);
        var rows = new List<(string Text, int Line)>();
        for (var i = 0; i < lines.Length; i++)
        {
            if (MetadataReader.IsComment(lines[i]))
            {
                MetadataReader.AddComment(lines[i], i + 1, metadata);
            }
            else if (!string.IsNullOrWhiteSpace(lines[i]))
            {
                rows.Add((lines[i], i + 1));
            }
        }
        var (separator, headerIndex, headings) = FindHeader(rows, path, options);
        var notes = new List<string>();
        foreach (var (text, line) in rows.Take(headerIndex))
        {
            var row = RowSplitter.Split(text, line, separator, path);
            if (row.Cells.Length > 0 && MetadataReader.AddRow(row, metadata) is { } note)
            {
                notes.Add(note);
            }
        }
        var headerLine = rows[headerIndex].Line;
        headings = CheckHeadings(headings, headerLine, path, options, notes);
        var body = rows.Skip(headerIndex + 1)
            .Select(row => RowSplitter.Split(row.Text, row.Line, separator, path))
            .Where(row => row.Cells.Length > 0)
            .Select(row => FitToHeader(row, headings.Count, path))
            .ToList();
        return body.Count > 0
            ? new Sheet(path, separator, headerLine, headings, body, metadata, notes)
            : throw new ScanFileException(path, headerLine, null, "no row follows the header", "rows of numbers");
    }

    // The separator that makes most of the first row that is a header under it.
    private static (char Separator, int Index, IReadOnlyList<Heading> Headings) FindHeader(
        List<(string Text, int Line)> rows, string path, ScanFileOptions options)
    {
        char[] separators = options.Separator is { } given ? [given] : ['\t', ';', ','];
        foreach (var leastKnown in (int[])[2, 1])
        {
            var candidates = separators
                .Select(separator => (Separator: separator, Found: FindHeader(rows, separator, path, leastKnown)))
                .Where(candidate => candidate.Found is not null)
                .ToList();
            if (candidates.Count > 0)
            {
                var (separator, found) = candidates.MaxBy(candidate => candidate.Found!.Value.Headings.Count(heading => heading.IsKnown));
                return (separator, found!.Value.Index, found.Value.Headings);
            }
        }
        throw new ScanFileException(path, rows.Count > 0 ? rows[0].Line : null, null, "no header row was found", HeaderExpected);
    }

    private static (int Index, IReadOnlyList<Heading> Headings)? FindHeader(
        List<(string Text, int Line)> rows, char separator, string path, int leastKnown)
    {
        for (var i = 0; i < Math.Min(rows.Count, RowsSearchedForHeader); i++)
        {
            if (!TrySplit(rows[i].Text, rows[i].Line, separator, path, out var cells))
            {
                continue;
            }
            var headings = cells.Select((cell, index) => HeadingParser.Parse(cell, index + 1)).ToList();
            if (headings.Any(heading => heading.Quantity is not null) && headings.Count(heading => heading.IsKnown) >= leastKnown)
            {
                return (i, headings);
            }
        }
        return null;
    }

    /// <summary>Splits a line; a quote that makes no sense under one separator may make sense under another.</summary>
    public static bool TrySplit(string text, int line, char separator, string path, out string[] cells)
    {
        try
        {
            cells = RowSplitter.Split(text, line, separator, path).Cells;
            return true;
        }
        catch (ScanFileException)
        {
            cells = [];
            return false;
        }
    }

    private static List<Heading> CheckHeadings(
        IReadOnlyList<Heading> headings, int line, string path, ScanFileOptions options, List<string> notes)
    {
        foreach (var heading in headings)
        {
            if (heading.Text.Length == 0)
            {
                throw new ScanFileException(path, line, heading.Column, "the header is empty", "a name above each column");
            }
            if (headings.FirstOrDefault(other => other.Column < heading.Column
                && string.Equals(other.Text, heading.Text, StringComparison.OrdinalIgnoreCase)) is { } first)
            {
                throw new ScanFileException(path, line, heading.Column, $"\"{heading.Text}\" already stands in column {first.Column}", "each column once");
            }
            if (!heading.IsKnown && !options.IgnoreUnknownColumns)
            {
                throw new ScanFileException(path, line, heading.Column, $"the column \"{heading.Text}\" is not known here",
                    "wavelength, total, diffuse, T1 to T4 with its unit, or a key such as specimen (or the option to ignore unknown columns)");
            }
            if (!heading.IsKnown)
            {
                notes.Add($"column {heading.Column} (\"{heading.Text}\") is not known here; it was left aside");
            }
        }
        return [.. headings];
    }

    /// <summary>A row as wide as the header. Cells that are missing at the end are empty; whoever needs them says so.</summary>
    /// <exception cref="ScanFileException">The row is wider.</exception>
    public static Row FitToHeader(Row row, int width, string path) => row.Cells.Length <= width
        ? row with { Cells = [.. row.Cells, .. Enumerable.Repeat("", width - row.Cells.Length)] }
        : throw new ScanFileException(path, row.Line, width + 1, $"the row has {row.Cells.Length} cells where the header has {width}",
            $"{width} cells (a decimal comma needs a semicolon or tab between the cells)");
}

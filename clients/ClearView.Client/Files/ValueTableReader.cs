using System.Collections.Immutable;

using ClearView.Client.Files.Parsing;

namespace ClearView.Client.Files;

/// <summary>Reads tables of values, as a laboratory or an instrument's own program exports them.</summary>
/// <remarks>
/// <para>A header row, then one row per specimen or place. Columns are known by their names, those of <see cref="ValueTableKeys"/> and the
/// identifiers of the registry's measurands; others are left aside with a note. docs/files.md describes them.</para>
/// <para>Thread-safe, stateless, and the same under every culture.</para>
/// </remarks>
public static class ValueTableReader
{
    /// <summary>Reads one file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="options">What the file does not say.</param>
    /// <exception cref="ScanFileException">The file cannot be read as it stands.</exception>
    public static ValueTable Read(string path, ValueTableOptions options)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(options);
        try
        {
            using var stream = File.OpenRead(path);
            return Read(stream, path, options);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new ScanFileException(path, null, null, e.Message.TrimEnd('.'), "a file that can be read", e);
        }
    }

    /// <summary>Reads one file from a stream.</summary>
    /// <param name="stream">The bytes of the file; read to the end, at most 64 MB, and left open.</param>
    /// <param name="name">What messages call the file.</param>
    /// <param name="options">What the file does not say.</param>
    /// <exception cref="ScanFileException">The file cannot be read as it stands.</exception>
    public static ValueTable Read(Stream stream, string name, ValueTableOptions options)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentException.ThrowIfNullOrEmpty(name);
        ArgumentNullException.ThrowIfNull(options);
        var lines = FileText.ReadLines(stream, name)
            .Select((text, index) => (Text: text, Line: index + 1))
            .Where(one => !string.IsNullOrWhiteSpace(one.Text) && !MetadataReader.IsComment(one.Text))
            .ToList();
        var header = ValueHeader.Find(lines, name, options.Separator);
        var numbers = new NumberFormat(name, header.Separator, options.DecimalMark);
        var rows = lines
            .SkipWhile(one => one.Line <= header.Line)
            .Select(one => RowSplitter.Split(one.Text, one.Line, header.Separator, name))
            .Where(row => row.Cells.Length > 0)
            .Select(row => Row(SheetReader.FitToHeader(row, header.Width, name), header, numbers, name))
            .ToImmutableArray();
        return rows.Length > 0
            ? new ValueTable(name, [.. header.Measurands.Select(column => column.Name)], rows, [.. header.Notes])
            : throw new ScanFileException(name, header.Line, null, "no row follows the header", "rows of values");
    }

    private static ValueRow Row(Row row, ValueHeader header, NumberFormat numbers, string path)
    {
        return new ValueRow
        {
            FileLine = row.Line,
            MeasuredAt = Text(ScanFileKeys.MeasuredAt) is { Length: > 0 } time
                ? TimeReader.Read(new MetadataEntry(time, row.Line, header.Keys[ScanFileKeys.MeasuredAt]), path)
                : null,
            Line = Text(ScanFileKeys.Line),
            Product = Text(ScanFileKeys.Product),
            Lot = Text(ScanFileKeys.Lot),
            Roll = Text(ScanFileKeys.Roll),
            Specimen = Text(ScanFileKeys.Specimen),
            Instrument = Text(ScanFileKeys.Instrument),
            AcrossMm = Number(ScanFileKeys.AcrossMm),
            AlongM = Number(ScanFileKeys.AlongM),
            AgeingHours = Number(ValueTableKeys.AgeingHours),
            Values = header.Measurands
                .Where(column => row.Cells[column.Column - 1].Length > 0)
                .ToImmutableSortedDictionary(
                    column => column.Name,
                    column => numbers.Read(row.Cells[column.Column - 1], row.Line, column.Column, column.Name),
                    StringComparer.Ordinal),
        };

        string Text(string key) => header.Keys.TryGetValue(key, out var column) ? row.Cells[column - 1] : "";

        double? Number(string key) => Text(key) is { Length: > 0 } text ? numbers.Read(text, row.Line, header.Keys[key], key) : null;
    }
}

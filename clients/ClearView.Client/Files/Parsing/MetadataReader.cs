namespace ClearView.Client.Files.Parsing;

/// <summary>Finds keys in comments ("# specimen: F-0012") and in rows before the header ("specimen; F-0012").</summary>
internal static class MetadataReader
{
    private const char CommentMark = '#';

    private static readonly char[] KeyEnds = [':', '=', ';', ',', '\t'];

    /// <summary>Whether a line is a comment.</summary>
    public static bool IsComment(string line) => line.AsSpan().TrimStart().StartsWith(CommentMark);

    /// <summary>Takes the key from a comment; a comment without a key is only a comment.</summary>
    /// <exception cref="ScanFileException">The key lacks its unit, or stands twice.</exception>
    public static void AddComment(string text, int line, Metadata metadata)
    {
        var comment = text.AsSpan().TrimStart().TrimStart(CommentMark).Trim();
        var end = comment.IndexOfAny(KeyEnds);
        if (end > 0)
        {
            // A comment line of a comma or semicolon file may carry the separators that fill it up to the header's width.
            var value = comment[(end + 1)..].Trim().TrimEnd(";,\t ").Trim('"').Trim();
            Add(comment[..end].Trim().ToString(), value.ToString(), line, null, metadata);
        }
    }

    /// <summary>Takes the key from a row before the header.</summary>
    /// <returns>A note where the row holds no key the reader knows; otherwise <see langword="null"/>.</returns>
    /// <exception cref="ScanFileException">The key lacks its unit, or stands twice.</exception>
    public static string? AddRow(Row row, Metadata metadata)
    {
        var name = row.Cells[0].TrimEnd(':', '=', ' ');
        var value = row.Cells.Length == 2 ? row.Cells[1] : "";
        if (row.Cells is [var only] && only.IndexOfAny(KeyEnds) is > 0 and var end)
        {
            name = only[..end].Trim();
            value = only[(end + 1)..].Trim();
        }
        return row.Cells.Length <= 2 && Add(name, value, row.Line, row.Cells.Length, metadata)
            ? null
            : $"line {row.Line} stands before the header row and holds no key that is known here (\"{Shorten(row.Cells[0])}\"); it was left aside";
    }

    private static bool Add(string name, string value, int line, int? column, Metadata metadata)
    {
        if (ScanFileKeys.Find(name) is { } key)
        {
            metadata.Add(key, value, line, column);
            return true;
        }
        return ScanFileKeys.FindWithoutUnit(name) is { } withUnit
            ? throw new ScanFileException(metadata.Path, line, null, $"\"{name}\" does not say its unit", $"the key {withUnit}")
            : false;
    }

    private static string Shorten(string text) => text.Length <= 40 ? text : text[..40] + "...";
}

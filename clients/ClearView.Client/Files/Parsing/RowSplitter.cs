using System.Text;

namespace ClearView.Client.Files.Parsing;

/// <summary>Splits one line into cells. A cell may be quoted ("" within quotes is one quote); no cell spans lines.</summary>
/// <remarks>
/// Not a general CSV reader, on purpose: three separators are tried on the same lines, and a fault is told by line and column.
/// </remarks>
internal static class RowSplitter
{
    /// <summary>The longest cell that is read, characters.</summary>
    public const int LongestCell = 1000;

    /// <summary>Splits a line; cells are trimmed, and empty cells at the end are dropped.</summary>
    /// <exception cref="ScanFileException">A quoted cell does not end, text follows its end, or a cell is too long.</exception>
    public static Row Split(string text, int line, char separator, string path)
    {
        var cells = new List<string>();
        var at = 0;
        while (at <= text.Length)
        {
            cells.Add(ReadCell(text, ref at, separator, path, line, cells.Count + 1));
        }
        while (cells.Count > 0 && cells[^1].Length == 0)
        {
            cells.RemoveAt(cells.Count - 1);
        }
        return new Row(line, [.. cells]);
    }

    // Reads the cell at `at`, and leaves `at` behind the separator that ends it (behind the end of the text after the last).
    private static string ReadCell(string text, ref int at, char separator, string path, int line, int column)
    {
        var rest = text.AsSpan(at);
        var indent = rest.Length - rest.TrimStart(' ').Length;
        if (indent < rest.Length && rest[indent] == '"')
        {
            at += indent;
            return ReadQuoted(text, ref at, separator, path, line, column);
        }
        var length = rest.IndexOf(separator);
        var cell = length < 0 ? rest : rest[..length];
        at += cell.Length + 1;
        return Checked(cell.Trim().ToString(), path, line, column);
    }

    private static string ReadQuoted(string text, ref int at, char separator, string path, int line, int column)
    {
        var cell = new StringBuilder();
        for (at++; at < text.Length; at++)
        {
            if (text[at] != '"')
            {
                cell.Append(text[at]);
            }
            else if (at + 1 < text.Length && text[at + 1] == '"')
            {
                cell.Append('"');
                at++;
            }
            else
            {
                var tail = text.AsSpan(at + 1);
                var length = tail.IndexOf(separator);
                var between = length < 0 ? tail : tail[..length];
                if (!between.IsWhiteSpace())
                {
                    throw new ScanFileException(path, line, column, "text follows the closing quote of the cell", "a separator or the end of the line");
                }
                at += between.Length + 2;
                return Checked(cell.ToString().Trim(), path, line, column);
            }
        }
        throw new ScanFileException(path, line, column, "the quoted cell does not end on its line", "a closing quote");
    }

    private static string Checked(string cell, string path, int line, int column) => cell.Length <= LongestCell
        ? cell
        : throw new ScanFileException(path, line, column, $"the cell is longer than {LongestCell} characters", "a number or a short text");
}

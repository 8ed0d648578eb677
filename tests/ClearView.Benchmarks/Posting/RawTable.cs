using Npgsql;

namespace ClearView.Benchmarks.Posting;

/// <summary>The rows of a table, by the reading that they belong to.</summary>
internal sealed class RawTable
{
    private readonly List<List<object[]>> _rows = [];

    private RawTable(string name, List<string> columns)
    {
        Name = name;
        SequenceColumn = columns.IndexOf("sequence");
        IdColumn = columns.IndexOf("id");
        CopyCommand = $"COPY {name} ({string.Join(", ", columns)}) FROM STDIN (FORMAT BINARY)";
    }

    /// <summary>The table's name.</summary>
    public string Name { get; }

    /// <summary>The command that takes its rows.</summary>
    public string CopyCommand { get; }

    /// <summary>Place of the column with the sequence.</summary>
    public int SequenceColumn { get; }

    /// <summary>Place of the column with the identifier; −1 where there is none.</summary>
    public int IdColumn { get; }

    /// <summary>Reads all rows, readings in the order of their sequence.</summary>
    public static async Task<RawTable> ReadAsync(NpgsqlConnection connection, string name)
    {
#pragma warning disable CA2100 // The name is a constant of the caller.
        await using var command = new NpgsqlCommand($"SELECT * FROM {name} ORDER BY sequence", connection);
#pragma warning restore CA2100
        await using var rows = await command.ExecuteReaderAsync();
        var table = new RawTable(name, [.. Enumerable.Range(0, rows.FieldCount).Select(rows.GetName)]);
        var sequence = -1L;
        while (await rows.ReadAsync())
        {
            var row = new object[rows.FieldCount];
            rows.GetValues(row);
            if (sequence != (long)row[table.SequenceColumn])
            {
                sequence = (long)row[table.SequenceColumn];
                table._rows.Add([]);
            }

            table._rows[^1].Add(row);
        }

        return table;
    }

    /// <summary>The rows of a reading, by its place.</summary>
    public List<object[]> RowsOf(int reading) => _rows[reading];
}

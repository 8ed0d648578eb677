using System.Globalization;

using ClearView.Records.Sqlite;

using Microsoft.Data.Sqlite;

namespace ClearView.Benchmarks.Posting;

/// <summary>A store file of the same schema, filled by plain prepared statements with the rows that posting made.</summary>
internal sealed class RawStore : IDisposable
{
    private const int BatchSize = 256;

    private readonly SqliteConnection _connection;
    private readonly SqliteCommand _reading;
    private readonly SqliteCommand _value;
    private readonly List<(object[] Reading, List<object[]> Values)> _rows = [];
    private long _sequence;

    /// <summary>Makes the file, and learns the rows of another.</summary>
    /// <param name="path">The file to make.</param>
    /// <param name="posted">The store that posting filled.</param>
    public RawStore(string path, string posted)
    {
        SqliteStore.Open(path, TimeProvider.System).DisposeAsync().AsTask().GetAwaiter().GetResult();
        _connection = new SqliteConnection($"Data Source={path};Pooling=False");
        _connection.Open();
        Execute("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA foreign_keys = ON");
        Execute($"ATTACH '{posted}' AS posted; INSERT INTO label SELECT * FROM posted.label WHERE code NOT IN (SELECT code FROM label)");
        using (var readings = Command("SELECT * FROM posted.reading ORDER BY sequence"))
        using (var rows = readings.ExecuteReader())
        {
            while (rows.Read())
            {
                var row = new object[rows.FieldCount];
                rows.GetValues(row);
                _rows.Add((row, []));
            }
        }

        var columns = Columns("reading");
        SequenceColumn = columns.IndexOf("sequence");
        IdColumn = columns.IndexOf("id");
        var valueColumns = Columns("series_value");
        ValueSequenceColumn = valueColumns.IndexOf("sequence");
        using (var values = Command("SELECT * FROM posted.series_value ORDER BY sequence"))
        using (var rows = values.ExecuteReader())
        {
            while (rows.Read())
            {
                var row = new object[rows.FieldCount];
                rows.GetValues(row);
                _rows[(int)(long)row[ValueSequenceColumn] - 1].Values.Add(row);
            }
        }

        Execute("DETACH posted");
        _reading = Insert("reading", columns);
        _value = Insert("series_value", valueColumns);
    }

    private int SequenceColumn { get; }

    private int IdColumn { get; }

    private int ValueSequenceColumn { get; }

    /// <summary>Values that each reading has.</summary>
    public int ValuesPerReading => _rows[0].Values.Count;

    /// <summary>Inserts the rows once more, under identifiers that are new, in batches that are each flushed to the disk.</summary>
    /// <param name="ids">The identifiers.</param>
    public void InsertAll(Guid[] ids)
    {
        for (var from = 0; from < ids.Length; from += BatchSize)
        {
            using var transaction = _connection.BeginTransaction(deferred: false);
            _reading.Transaction = transaction;
            _value.Transaction = transaction;
            for (var i = from; i < Math.Min(from + BatchSize, ids.Length); i++)
            {
                var (reading, values) = _rows[i];
                object sequence = ++_sequence;
                reading[SequenceColumn] = sequence;
                reading[IdColumn] = ids[i].ToByteArray(bigEndian: true);
                Run(_reading, reading);
                foreach (var value in values)
                {
                    value[ValueSequenceColumn] = sequence;
                    Run(_value, value);
                }
            }

            transaction.Commit();
        }
    }

    public void Dispose()
    {
        _reading.Dispose();
        _value.Dispose();
        _connection.Dispose();
    }

    private static void Run(SqliteCommand command, object[] row)
    {
        for (var i = 0; i < row.Length; i++)
        {
            command.Parameters[i].Value = row[i];
        }

        command.ExecuteNonQuery();
    }

    private List<string> Columns(string table)
    {
        using var command = Command($"SELECT name FROM pragma_table_info('{table}') ORDER BY cid");
        using var rows = command.ExecuteReader();
        List<string> columns = [];
        while (rows.Read())
        {
            columns.Add(rows.GetString(0));
        }

        return columns;
    }

    private SqliteCommand Insert(string table, List<string> columns)
    {
        var command = Command(
            $"INSERT INTO {table} ({string.Join(", ", columns)}) VALUES ({string.Join(", ", columns.Select((_, i) => string.Create(CultureInfo.InvariantCulture, $"@p{i}")))})");
        for (var i = 0; i < columns.Count; i++)
        {
            command.Parameters.Add(new SqliteParameter { ParameterName = string.Create(CultureInfo.InvariantCulture, $"@p{i}") });
        }

        return command;
    }

    private void Execute(string sql)
    {
        using var command = Command(sql);
        command.ExecuteNonQuery();
    }

#pragma warning disable CA2100 // Statements are made of constants and of names that the schema gives.
    private SqliteCommand Command(string sql) => new(sql, _connection);
#pragma warning restore CA2100
}

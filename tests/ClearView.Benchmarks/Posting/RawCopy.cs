using System.Globalization;

using Npgsql;

using NpgsqlTypes;

namespace ClearView.Benchmarks.Posting;

/// <summary>A database of the same schema, filled by plain binary COPY with the rows that posting made.</summary>
/// <remarks>It begins as a copy of the store that posting filled, with its months and labels.</remarks>
internal sealed class RawCopy : IAsyncDisposable
{
    private const int BatchSize = 256;

    private readonly NpgsqlConnection _connection;
    private readonly List<RawTable> _tables = [];
    private long _sequence;

    private RawCopy(NpgsqlConnection connection) => _connection = connection;

    /// <summary>Values that each reading has.</summary>
    public int ValuesPerReading => _tables.Single(table => table.Name == "series_value").RowsOf(0).Count;

    /// <summary>Learns the rows of a database.</summary>
    public static async Task<RawCopy> OpenAsync(string connectionString)
    {
        var connection = new NpgsqlConnection(connectionString + ";Pooling=false;Search Path=clearview");
        await connection.OpenAsync();
        var copy = new RawCopy(connection);
        foreach (var name in new[] { "reading_id", "reading", "series_value" })
        {
            copy._tables.Add(await RawTable.ReadAsync(connection, name));
        }

        copy._sequence = long.Parse(await copy.SettingAsync("SELECT max(sequence)::text FROM reading"), CultureInfo.InvariantCulture);
        return copy;
    }

    /// <summary>Name and version of the engine, with the settings that durability hangs on.</summary>
    public async Task<string> EngineAsync() => string.Join(
        ", ",
        "PostgreSQL " + await SettingAsync("SHOW server_version"),
        "synchronous_commit = " + await SettingAsync("SHOW synchronous_commit"),
        "fsync = " + await SettingAsync("SHOW fsync"));

    /// <summary>Copies the rows once more, under identifiers that are new, in batches that are each flushed to the disk.</summary>
    /// <param name="ids">The identifiers.</param>
    public async Task CopyAllAsync(Guid[] ids)
    {
        for (var from = 0; from < ids.Length; from += BatchSize)
        {
            await using var transaction = await _connection.BeginTransactionAsync();
            var to = Math.Min(from + BatchSize, ids.Length);
            foreach (var table in _tables)
            {
                await using var import = await _connection.BeginBinaryImportAsync(table.CopyCommand);
                for (var i = from; i < to; i++)
                {
                    foreach (var row in table.RowsOf(i))
                    {
                        await import.StartRowAsync();
                        for (var column = 0; column < row.Length; column++)
                        {
                            if (column == table.SequenceColumn)
                            {
                                import.Write(_sequence + 1 + i, NpgsqlDbType.Bigint);
                            }
                            else if (column == table.IdColumn)
                            {
                                import.Write(ids[i], NpgsqlDbType.Uuid);
                            }
                            else
                            {
                                Write(import, row[column]);
                            }
                        }
                    }
                }

                await import.CompleteAsync();
            }

            await transaction.CommitAsync();
        }

        _sequence += ids.Length;
    }

    public ValueTask DisposeAsync() => _connection.DisposeAsync();

    // Without boxing and without asking for types: the plain way is not to be slowed down.
    private static void Write(NpgsqlBinaryImporter import, object value)
    {
        switch (value)
        {
            case long whole:
                import.Write(whole, NpgsqlDbType.Bigint);
                break;
            case double real:
                import.Write(real, NpgsqlDbType.Double);
                break;
            case string text:
                import.Write(text, NpgsqlDbType.Text);
                break;
            case byte[] bytes:
                import.Write(bytes, NpgsqlDbType.Bytea);
                break;
            case DBNull:
                import.WriteNull();
                break;
            default:
                throw new NotSupportedException($"Columns of {value.GetType().Name} are not copied.");
        }
    }

    private async Task<string> SettingAsync(string sql)
    {
#pragma warning disable CA2100 // Statements are constants.
        await using var command = new NpgsqlCommand(sql, _connection);
#pragma warning restore CA2100
        return (string)(await command.ExecuteScalarAsync())!;
    }
}

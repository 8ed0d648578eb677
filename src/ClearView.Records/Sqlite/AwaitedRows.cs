using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Rows of readings whose signals are not stored yet, through prepared commands of one connection.</summary>
internal sealed class AwaitedRows(SqliteConnection connection) : IDisposable
{
    private readonly SqliteCommand _insert = Make(connection, "INSERT INTO awaited_signal (sequence) VALUES (@sequence)");
    private readonly SqliteCommand _delete = Make(connection, "DELETE FROM awaited_signal WHERE sequence = @sequence");

    /// <summary>Adds a reading, within the transaction that inserts it.</summary>
    public void Insert(long sequence, SqliteTransaction transaction) => Run(_insert, sequence, transaction);

    /// <summary>Takes readings out, where they are there.</summary>
    public void Delete(IEnumerable<long> sequences, SqliteTransaction transaction)
    {
        foreach (var sequence in sequences)
        {
            Run(_delete, sequence, transaction);
        }
    }

    public void Dispose()
    {
        _insert.Dispose();
        _delete.Dispose();
    }

    private static void Run(SqliteCommand command, long sequence, SqliteTransaction transaction)
    {
        command.Transaction = transaction;
        command.Parameters[0].Value = sequence;
        command.ExecuteNonQuery();
    }

    // Both statements are constants of this class.
#pragma warning disable CA2100
    private static SqliteCommand Make(SqliteConnection connection, string sql)
    {
        var command = new SqliteCommand(sql, connection);
        command.Parameters.Add("@sequence", SqliteType.Integer);
        return command;
    }
#pragma warning restore CA2100
}

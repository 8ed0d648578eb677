using ClearView.Records.Model;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Writes methods through prepared commands of one connection.</summary>
internal sealed class MethodInserter(SqliteConnection connection) : IDisposable
{
    private readonly SqliteCommand _findNewest = MethodRows.FindCommand(connection);
    private readonly SqliteCommand _insert = MethodRows.InsertCommand(connection);

    /// <summary>Inserts a method as the next version of its name, unless the newest says the same. Call within a transaction.</summary>
    /// <remarks>The transaction holds the write lock from its start, so that nobody else can take the version in between.</remarks>
    public StoreMethodOutcome Insert(MethodEntry entry, DateTimeOffset now, SqliteTransaction transaction)
    {
        _findNewest.Transaction = transaction;
        var newest = MethodRows.Find(_findNewest, entry.Name, version: null);
        if (newest is not null && newest.Entry.SaysTheSameAs(entry))
        {
            return new StoreMethodOutcome(newest, AlreadyStored: true);
        }

        var stored = new StoredMethod(entry, (newest?.Version ?? 0) + 1, now);
        _insert.Transaction = transaction;
        MethodRows.Insert(_insert, stored);
        return new StoreMethodOutcome(stored, AlreadyStored: false);
    }

    public void Dispose()
    {
        _findNewest.Dispose();
        _insert.Dispose();
    }
}

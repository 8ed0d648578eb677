using ClearView.Records.Model;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Writes documents of every kind through prepared commands of one connection.</summary>
internal sealed class VersionInserter(SqliteConnection connection) : IDisposable
{
    private readonly SqliteCommand _findNewest = VersionRows.FindCommand(connection);
    private readonly SqliteCommand _insert = VersionRows.InsertCommand(connection);

    /// <summary>Inserts a document as the next version of its name, unless the newest says the same. Call within a transaction.</summary>
    /// <remarks>The transaction holds the write lock from its start, so that nobody else can take the version in between.</remarks>
    public StoreVersionOutcome Insert(VersionedKind kind, VersionedEntry entry, DateTimeOffset now, SqliteTransaction transaction)
    {
        _findNewest.Transaction = transaction;
        var newest = VersionRows.Find(_findNewest, kind, entry.Name, version: null);
        if (newest is not null && newest.Entry.SaysTheSameAs(entry))
        {
            return new StoreVersionOutcome(newest, AlreadyStored: true);
        }

        var stored = new StoredVersion(entry, (newest?.Version ?? 0) + 1, now);
        _insert.Transaction = transaction;
        VersionRows.Insert(_insert, kind, stored);
        return new StoreVersionOutcome(stored, AlreadyStored: false);
    }

    public void Dispose()
    {
        _findNewest.Dispose();
        _insert.Dispose();
    }
}

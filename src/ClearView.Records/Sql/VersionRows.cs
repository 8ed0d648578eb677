using System.Data.Common;

using ClearView.Records.Model;
using ClearView.Records.Schema;

namespace ClearView.Records.Sql;

/// <summary>Rows of the table of documents to documents and back.</summary>
internal static class VersionRows
{
    private const string SelectVersion = "SELECT name, version, stored_at, stored_by, description, body FROM versioned";

    /// <summary>The document of a name in a version, or in its newest one.</summary>
    public static StoredVersion? Find(DbConnection connection, DbTransaction? transaction, VersionedKind kind, string name, long? version)
    {
        var which = version is null ? "" : " AND version = @version";
        using var command = Commands.Make(
            connection, SelectVersion + " WHERE kind = @kind AND name = @name" + which + " ORDER BY version DESC LIMIT 1");
        command.Transaction = transaction;
        command.Add("@kind", KindKeys.Of(kind));
        command.Add("@name", name);
        if (version is { } wanted)
        {
            command.Add("@version", wanted);
        }

        using var rows = command.ExecuteReader();
        return rows.Read() ? Read(rows) : null;
    }

    /// <summary>
    /// Inserts a document as the next version of its name, unless the newest says the same. The caller holds a lock that
    /// nobody else can take the version under.
    /// </summary>
    public static StoreVersionOutcome InsertNext(
        DbConnection connection, DbTransaction transaction, VersionedKind kind, VersionedEntry entry, DateTimeOffset now)
    {
        var newest = Find(connection, transaction, kind, entry.Name, version: null);
        if (newest is not null && newest.Entry.SaysTheSameAs(entry))
        {
            return new StoreVersionOutcome(newest, AlreadyStored: true);
        }

        var stored = new StoredVersion(entry, (newest?.Version ?? 0) + 1, now);
        Insert(connection, transaction, kind, stored);
        return new StoreVersionOutcome(stored, AlreadyStored: false);
    }

    /// <summary>Inserts a document.</summary>
    public static void Insert(DbConnection connection, DbTransaction transaction, VersionedKind kind, StoredVersion stored)
    {
        using var command = Commands.Make(
            connection,
            """
            INSERT INTO versioned (kind, name, version, stored_at, stored_by, description, body)
            VALUES (@kind, @name, @version, @stored_at, @stored_by, @description, @body)
            """);
        command.Transaction = transaction;
        command.Add("@kind", KindKeys.Of(kind));
        command.Add("@name", stored.Entry.Name);
        command.Add("@version", stored.Version);
        command.Add("@stored_at", stored.StoredAt.UtcTicks);
        command.Add("@stored_by", stored.Entry.StoredBy);
        command.Add("@description", stored.Entry.Description);
        command.Add("@body", stored.Entry.Body.ToArray());
        command.ExecuteNonQuery();
    }

    /// <summary>A command that lists the documents of a query, one more than its page holds.</summary>
    public static DbCommand ListCommand(DbConnection connection, VersionedKind kind, VersionQuery query)
    {
        const string newestOnly = "version = (SELECT max(version) FROM versioned AS other WHERE other.kind = versioned.kind AND other.name = versioned.name)";
        var command = connection.CreateCommand();
        List<string> conditions = ["kind = @kind"];
        command.Add("@kind", KindKeys.Of(kind));
        if (!query.AllVersions)
        {
            conditions.Add(newestOnly);
        }

        if (query.After is { } after)
        {
            // Of a list of newest versions, a name that gained one since has been shown already.
            conditions.Add(query.AllVersions ? "(name, version) > (@name, @version)" : "name > @name");
            command.Add("@name", after.Name);
            if (query.AllVersions)
            {
                command.Add("@version", after.Version);
            }
        }

        // Conditions are our own constants; every value travels as a parameter.
        var where = " WHERE " + string.Join(" AND ", conditions);
#pragma warning disable CA2100
        command.CommandText = SelectVersion + where + " ORDER BY name, version LIMIT @limit";
#pragma warning restore CA2100
        command.Add("@limit", query.PageSize + 1L);
        return command;
    }

    /// <summary>The document in the current row.</summary>
    public static StoredVersion Read(DbDataReader row) => new(
        new VersionedEntry
        {
            Name = row.GetString(0),
            StoredBy = row.GetString(3),
            Description = row.GetString(4),
            Body = row.GetFieldValue<byte[]>(5),
        },
        row.GetInt64(1),
        new DateTimeOffset(row.GetInt64(2), TimeSpan.Zero));
}

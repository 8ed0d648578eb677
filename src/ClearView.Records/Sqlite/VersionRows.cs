using ClearView.Records.Model;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Rows of the table of documents to documents and back.</summary>
internal static class VersionRows
{
    private const string SelectVersion = "SELECT name, version, stored_at, stored_by, description, body FROM versioned";

    /// <summary>A command for <see cref="Find"/>.</summary>
    public static SqliteCommand FindCommand(SqliteConnection connection)
    {
        var command = new SqliteCommand(
            SelectVersion + " WHERE kind = @kind AND name = @name AND (@version IS NULL OR version = @version) ORDER BY version DESC LIMIT 1", connection);
        command.Parameters.Add("@kind", SqliteType.Text);
        command.Parameters.Add("@name", SqliteType.Text);
        command.Parameters.Add("@version", SqliteType.Integer);
        return command;
    }

    /// <summary>The document of a name in a version, or in its newest one.</summary>
    public static StoredVersion? Find(SqliteCommand command, VersionedKind kind, string name, long? version)
    {
        command.Parameters[0].Value = Key(kind);
        command.Parameters[1].Value = name;
        command.Parameters[2].Value = version is { } wanted ? wanted : DBNull.Value;
        using var rows = command.ExecuteReader();
        return rows.Read() ? Read(rows) : null;
    }

    /// <summary>A command for <see cref="Insert"/>.</summary>
    public static SqliteCommand InsertCommand(SqliteConnection connection) => new(
        """
        INSERT INTO versioned (kind, name, version, stored_at, stored_by, description, body)
        VALUES (@kind, @name, @version, @stored_at, @stored_by, @description, @body)
        """,
        connection);

    /// <summary>Inserts a document.</summary>
    public static void Insert(SqliteCommand command, VersionedKind kind, StoredVersion stored)
    {
        var parameters = command.Parameters;
        parameters.Clear();
        parameters.AddWithValue("@kind", Key(kind));
        parameters.AddWithValue("@name", stored.Entry.Name);
        parameters.AddWithValue("@version", stored.Version);
        parameters.AddWithValue("@stored_at", stored.StoredAt.UtcTicks);
        parameters.AddWithValue("@stored_by", stored.Entry.StoredBy);
        parameters.AddWithValue("@description", stored.Entry.Description);
        parameters.AddWithValue("@body", stored.Entry.Body.ToArray());
        command.ExecuteNonQuery();
    }

    /// <summary>A command that lists the documents of a query, one more than its page holds.</summary>
    public static SqliteCommand ListCommand(SqliteConnection connection, VersionedKind kind, VersionQuery query)
    {
        const string newestOnly = "version = (SELECT max(version) FROM versioned AS other WHERE other.kind = versioned.kind AND other.name = versioned.name)";
        var command = connection.CreateCommand();
        List<string> conditions = ["kind = @kind"];
        command.Parameters.AddWithValue("@kind", Key(kind));
        if (!query.AllVersions)
        {
            conditions.Add(newestOnly);
        }

        if (query.After is { } after)
        {
            // Of a list of newest versions, a name that gained one since has been shown already.
            conditions.Add(query.AllVersions ? "(name, version) > (@name, @version)" : "name > @name");
            command.Parameters.AddWithValue("@name", after.Name);
            command.Parameters.AddWithValue("@version", after.Version);
        }

        // Conditions are our own constants; every value travels as a parameter.
        var where = " WHERE " + string.Join(" AND ", conditions);
#pragma warning disable CA2100
        command.CommandText = SelectVersion + where + " ORDER BY name, version LIMIT @limit";
#pragma warning restore CA2100
        command.Parameters.AddWithValue("@limit", query.PageSize + 1L);
        return command;
    }

    /// <summary>The document in the current row.</summary>
    public static StoredVersion Read(SqliteDataReader row) => new(
        new VersionedEntry
        {
            Name = row.GetString(0),
            StoredBy = row.GetString(3),
            Description = row.GetString(4),
            Body = row.GetFieldValue<byte[]>(5),
        },
        row.GetInt64(1),
        new DateTimeOffset(row.GetInt64(2), TimeSpan.Zero));

    // Written out, so that a file tells its kinds to whoever opens it, and a renamed member does not change it.
    private static string Key(VersionedKind kind) => kind switch
    {
        VersionedKind.Method => "method",
        VersionedKind.Specification => "specification",
        VersionedKind.Reference => "reference",
        VersionedKind.ControlChart => "control chart",
        VersionedKind.Key => "key",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "expected a kind of document."),
    };
}

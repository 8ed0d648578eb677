using ClearView.Records.Model;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Rows of the table of methods to methods and back.</summary>
internal static class MethodRows
{
    private const string SelectMethod = "SELECT name, version, stored_at, stored_by, description, method FROM method";

    /// <summary>A command for <see cref="Find"/>.</summary>
    public static SqliteCommand FindCommand(SqliteConnection connection)
    {
        var command = new SqliteCommand(
            SelectMethod + " WHERE name = @name AND (@version IS NULL OR version = @version) ORDER BY version DESC LIMIT 1", connection);
        command.Parameters.Add("@name", SqliteType.Text);
        command.Parameters.Add("@version", SqliteType.Integer);
        return command;
    }

    /// <summary>The method of a name in a version, or in its newest one.</summary>
    public static StoredMethod? Find(SqliteCommand command, string name, long? version)
    {
        command.Parameters[0].Value = name;
        command.Parameters[1].Value = version is { } wanted ? wanted : DBNull.Value;
        using var rows = command.ExecuteReader();
        return rows.Read() ? Read(rows) : null;
    }

    /// <summary>A command for <see cref="Insert"/>.</summary>
    public static SqliteCommand InsertCommand(SqliteConnection connection) => new(
        """
        INSERT INTO method (name, version, stored_at, stored_by, description, method)
        VALUES (@name, @version, @stored_at, @stored_by, @description, @method)
        """,
        connection);

    /// <summary>Inserts a method.</summary>
    public static void Insert(SqliteCommand command, StoredMethod method)
    {
        var parameters = command.Parameters;
        parameters.Clear();
        parameters.AddWithValue("@name", method.Entry.Name);
        parameters.AddWithValue("@version", method.Version);
        parameters.AddWithValue("@stored_at", method.StoredAt.UtcTicks);
        parameters.AddWithValue("@stored_by", method.Entry.StoredBy);
        parameters.AddWithValue("@description", method.Entry.Description);
        parameters.AddWithValue("@method", method.Entry.Method.ToArray());
        command.ExecuteNonQuery();
    }

    /// <summary>A command that lists the methods of a query, one more than its page holds.</summary>
    public static SqliteCommand ListCommand(SqliteConnection connection, MethodQuery query)
    {
        const string newestOnly = "version = (SELECT max(version) FROM method AS other WHERE other.name = method.name)";
        var command = connection.CreateCommand();
        List<string> conditions = [];
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
        var where = conditions.Count == 0 ? "" : " WHERE " + string.Join(" AND ", conditions);
#pragma warning disable CA2100
        command.CommandText = SelectMethod + where + " ORDER BY name, version LIMIT @limit";
#pragma warning restore CA2100
        command.Parameters.AddWithValue("@limit", query.PageSize + 1L);
        return command;
    }

    /// <summary>The method in the current row.</summary>
    public static StoredMethod Read(SqliteDataReader row) => new(
        new MethodEntry
        {
            Name = row.GetString(0),
            StoredBy = row.GetString(3),
            Description = row.GetString(4),
            Method = row.GetFieldValue<byte[]>(5),
        },
        row.GetInt64(1),
        new DateTimeOffset(row.GetInt64(2), TimeSpan.Zero));
}

using System.Collections.Immutable;

using ClearView.Records.Model;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Methods in the table of a store file.</summary>
internal sealed class SqliteMethodStore(StoreFile file, MethodInserter inserter) : IMethodStore
{
    /// <inheritdoc/>
    public Task<StoreMethodOutcome> StoreAsync(MethodEntry entry, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(entry);
        ArgumentException.ThrowIfNullOrEmpty(entry.Name, nameof(entry));
        ArgumentNullException.ThrowIfNull(entry.Description, nameof(entry));
        ArgumentNullException.ThrowIfNull(entry.StoredBy, nameof(entry));

        // Detached from the caller's buffer, which may change before the writer's turn.
        var detached = entry with { Method = entry.Method.ToArray() };
        return file.WriteAsync((transaction, now) => inserter.Insert(detached, now, transaction), cancellationToken);
    }

    /// <inheritdoc/>
    public Task<StoredMethod?> FindAsync(string name, long? version, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(name);
        return file.ReadAsync(
            connection =>
            {
                using var find = MethodRows.FindCommand(connection);
                return MethodRows.Find(find, name, version);
            },
            cancellationToken);
    }

    /// <inheritdoc/>
    public Task<MethodPage> ListAsync(MethodQuery query, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(query);
        ArgumentOutOfRangeException.ThrowIfLessThan(query.PageSize, 1, nameof(query));
        ArgumentOutOfRangeException.ThrowIfLessThan(query.MaxPayloadBytes, 1, nameof(query));
        return file.ReadAsync(connection => List(connection, query, cancellationToken), cancellationToken);
    }

    private static MethodPage List(SqliteConnection connection, MethodQuery query, CancellationToken cancellationToken)
    {
        using var list = MethodRows.ListCommand(connection, query);
        using var rows = list.ExecuteReader();
        var methods = ImmutableArray.CreateBuilder<StoredMethod>();
        var bytes = 0L;
        while (rows.Read())
        {
            if (methods.Count == query.PageSize || bytes >= query.MaxPayloadBytes)
            {
                return new MethodPage(methods.ToImmutable(), HasMore: true);
            }

            cancellationToken.ThrowIfCancellationRequested();
            var method = MethodRows.Read(rows);
            bytes += method.Entry.Method.Length;
            methods.Add(method);
        }

        return new MethodPage(methods.ToImmutable(), HasMore: false);
    }
}

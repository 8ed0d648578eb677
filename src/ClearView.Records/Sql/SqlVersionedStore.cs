using System.Collections.Immutable;
using System.Data.Common;

using ClearView.Records.Model;

namespace ClearView.Records.Sql;

/// <summary>Documents of one kind in the table of either engine.</summary>
internal sealed class SqlVersionedStore(IStoreDatabase database, VersionedKind kind) : IVersionedStore
{
    /// <inheritdoc/>
    public Task<StoreVersionOutcome> StoreAsync(VersionedEntry entry, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(entry);
        ArgumentException.ThrowIfNullOrEmpty(entry.Name, nameof(entry));
        ArgumentNullException.ThrowIfNull(entry.Description, nameof(entry));
        ArgumentNullException.ThrowIfNull(entry.StoredBy, nameof(entry));

        // Detached from the caller's buffer, which may change before the writer's turn.
        var detached = entry with { Body = entry.Body.ToArray() };
        return database.StoreAsync(kind, detached, cancellationToken);
    }

    /// <inheritdoc/>
    public Task<StoredVersion?> FindAsync(string name, long? version, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(name);
        return database.ReadAsync(connection => VersionRows.Find(connection, transaction: null, kind, name, version), cancellationToken);
    }

    /// <inheritdoc/>
    public Task<VersionPage> ListAsync(VersionQuery query, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(query);
        ArgumentOutOfRangeException.ThrowIfLessThan(query.PageSize, 1, nameof(query));
        ArgumentOutOfRangeException.ThrowIfLessThan(query.MaxPayloadBytes, 1, nameof(query));
        return database.ReadAsync(connection => List(connection, query, cancellationToken), cancellationToken);
    }

    private VersionPage List(DbConnection connection, VersionQuery query, CancellationToken cancellationToken)
    {
        using var list = VersionRows.ListCommand(connection, kind, query);
        using var rows = list.ExecuteReader();
        var versions = ImmutableArray.CreateBuilder<StoredVersion>();
        var bytes = 0L;
        while (rows.Read())
        {
            if (versions.Count == query.PageSize || bytes >= query.MaxPayloadBytes)
            {
                return new VersionPage(versions.ToImmutable(), HasMore: true);
            }

            cancellationToken.ThrowIfCancellationRequested();
            var version = VersionRows.Read(rows);
            bytes += version.Entry.Body.Length;
            versions.Add(version);
        }

        return new VersionPage(versions.ToImmutable(), HasMore: false);
    }
}

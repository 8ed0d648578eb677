using System.Collections.Immutable;

using ClearView.Records.Audit;

namespace ClearView.Records.Sql;

/// <summary>The chains in the tables of either engine.</summary>
internal sealed class SqlAuditStore(IReadDatabase database) : IAuditStore
{
    /// <inheritdoc/>
    public Task<ImmutableArray<ChainHead>> HeadsAsync(CancellationToken cancellationToken) =>
        database.ReadAsync(
            connection =>
            {
                using var moment = database.BeginSnapshot(connection);
                return LinkRows.Heads(connection, moment);
            },
            cancellationToken);

    /// <inheritdoc/>
    public Task<AuditReport> VerifyAsync(IReadOnlyList<ChainHead> noted, IProgress<long>? progress, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(noted);
        return database.ReadAsync(
            connection =>
            {
                using var moment = database.BeginSnapshot(connection);
                return new ChainVerification(connection, moment, database.AuditQueries).Run(noted, progress, cancellationToken);
            },
            cancellationToken);
    }

    /// <inheritdoc/>
    public Task<ImmutableArray<PlacedLink>> LinksAsync(IReadOnlyList<RecordKey> records, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(records);
        return database.ReadAsync(
            connection =>
            {
                using var moment = database.BeginSnapshot(connection);
                return records.Select(record => LinkRows.Find(connection, moment, record)).OfType<PlacedLink>().ToImmutableArray();
            },
            cancellationToken);
    }
}

using System.Collections.Immutable;

using ClearView.Records.Audit;
using ClearView.Records.Exchange;
using ClearView.Records.Model;
using ClearView.Records.Schema;
using ClearView.Records.Sql;

namespace ClearView.Records.Postgres;

/// <summary>The store in a PostgreSQL database, version 15 or newer, that several servers may share.</summary>
/// <remarks>
/// <para>Safe for concurrent use. One writer per server commits in groups; readers run beside it and see whole rows only.</para>
/// <para>A write is acknowledged when the database has flushed its log (synchronous_commit = on), which needs fsync = on.</para>
/// <para>Servers of one database number readings from one sequence; what they commit at the same time may become visible in
/// another order than its sequence. <see cref="Recorded"/> waits for what is still missing.</para>
/// </remarks>
public sealed class PostgresStore : IStore, IStoreBehind
{
    private readonly PostgresDatabase _database;

    private PostgresStore(PostgresDatabase database)
    {
        _database = database;
        Readings = new SqlReadingStore(database);
        Recorded = new SqlRecordedStore(database);
        Series = new PostgresSeriesStore(database);
        Audit = new SqlAuditStore(database);
        Pictures = new SqlPictureStore(database);
    }

    /// <inheritdoc/>
    public IReadingStore Readings { get; }

    /// <inheritdoc/>
    public IRecordedStore Recorded { get; }

    /// <inheritdoc/>
    public ISeriesStore Series { get; }

    /// <inheritdoc/>
    public IAuditStore Audit { get; }

    /// <inheritdoc/>
    public IPictureStore Pictures { get; }

    IStoreDatabase IStoreBehind.Database => _database;

    /// <summary>Opens the store of a database, and creates or upgrades its tables where needed.</summary>
    /// <param name="connectionString">A connection string of Npgsql; see <see cref="PostgresConnectionString.Parse"/>.</param>
    /// <param name="clock">The clock of the time of recording.</param>
    /// <param name="cancellationToken">Stops the opening.</param>
    /// <returns>The store; disposing it finishes what is in flight.</returns>
    /// <exception cref="StoreFormatException">The database is of another use or too old, or a newer version wrote it.</exception>
    /// <exception cref="StoreUnavailableException">The database cannot be opened for writing.</exception>
    public static Task<PostgresStore> OpenAsync(string connectionString, TimeProvider clock, CancellationToken cancellationToken = default) =>
        OpenAsync(connectionString, clock, Migration.OfPostgres, cancellationToken);

    /// <inheritdoc/>
    public IVersionedStore Documents(VersionedKind kind) => new SqlVersionedStore(_database, kind);

    /// <summary>Commits what is in flight, then closes every connection.</summary>
    /// <returns>A task that completes when the store is closed.</returns>
    public ValueTask DisposeAsync() => _database.DisposeAsync();

    /// <summary>Opens a store with other migrations than this version's own.</summary>
    internal static async Task<PostgresStore> OpenAsync(
        string connectionString, TimeProvider clock, ImmutableArray<Migration> migrations, CancellationToken cancellationToken) =>
        new(await PostgresDatabase.OpenAsync(connectionString, clock, migrations, cancellationToken).ConfigureAwait(false));
}

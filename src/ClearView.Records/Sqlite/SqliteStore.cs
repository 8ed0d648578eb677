using System.Collections.Immutable;

using ClearView.Records.Audit;
using ClearView.Records.Exchange;
using ClearView.Records.Model;
using ClearView.Records.Schema;
using ClearView.Records.Sql;

namespace ClearView.Records.Sqlite;

/// <summary>The embedded store: one SQLite file beside its write-ahead log, with readings, their series, and documents in it.</summary>
/// <remarks>
/// <para>Safe for concurrent use. One writer commits in groups; readers run beside it and see whole rows only.</para>
/// <para>A write is acknowledged when the log that holds it has been flushed to the disk (synchronous = FULL).</para>
/// </remarks>
public sealed class SqliteStore : IStore, IStoreBehind
{
    private readonly StoreFile _file;

    private SqliteStore(StoreFile file)
    {
        _file = file;
        Readings = new SqlReadingStore(file);
        Recorded = new SqlRecordedStore(file);
        Series = new SqliteSeriesStore(file);
        Audit = new SqlAuditStore(file);
        Pictures = new SqlPictureStore(file);
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

    IStoreDatabase IStoreBehind.Database => _file;

    /// <summary>Opens the store of a file, and creates or upgrades the file where needed.</summary>
    /// <param name="path">The file. Its folder must exist.</param>
    /// <param name="clock">The clock of the time of recording.</param>
    /// <returns>The store; disposing it finishes what is in flight.</returns>
    /// <exception cref="StoreFormatException">The file is something else, or a newer version wrote it.</exception>
    /// <exception cref="StoreUnavailableException">The file cannot be opened for writing.</exception>
    public static SqliteStore Open(string path, TimeProvider clock) => Open(path, clock, Migration.OfSqlite);

    /// <inheritdoc/>
    public IVersionedStore Documents(VersionedKind kind) => new SqlVersionedStore(_file, kind);

    /// <summary>Commits what is in flight, then closes the file.</summary>
    /// <returns>A task that completes when the file is closed.</returns>
    public ValueTask DisposeAsync() => _file.DisposeAsync();

    /// <summary>Opens a store with other migrations than this version's own.</summary>
    internal static SqliteStore Open(string path, TimeProvider clock, ImmutableArray<Migration> migrations) =>
        new(StoreFile.Open(path, clock, migrations));
}

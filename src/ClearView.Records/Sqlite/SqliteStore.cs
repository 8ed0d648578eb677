using System.Collections.Immutable;

using ClearView.Records.Model;

namespace ClearView.Records.Sqlite;

/// <summary>The embedded store: one SQLite file beside its write-ahead log, with readings, their series, and documents in it.</summary>
/// <remarks>
/// <para>Safe for concurrent use. One writer commits in groups; readers run beside it and see whole rows only.</para>
/// <para>A write is acknowledged when the log that holds it has been flushed to the disk (synchronous = FULL).</para>
/// </remarks>
public sealed class SqliteStore : IAsyncDisposable
{
    private readonly StoreFile _file;
    private readonly ReadingInserter _readingInserter;
    private readonly VersionInserter _versionInserter;

    private SqliteStore(StoreFile file)
    {
        _file = file;
        _readingInserter = new ReadingInserter(file.WriterConnection);
        _versionInserter = new VersionInserter(file.WriterConnection);
        Readings = new SqliteReadingStore(file, _readingInserter);
        _file.RolledBack += _readingInserter.Forget;
        Series = new SqliteSeriesStore(file);
        Methods = Documents(VersionedKind.Method);
        Specifications = Documents(VersionedKind.Specification);
        References = Documents(VersionedKind.Reference);
        ControlCharts = Documents(VersionedKind.ControlChart);
        Keys = Documents(VersionedKind.Key);
    }

    /// <summary>The readings.</summary>
    public IReadingStore Readings { get; }

    /// <summary>The series of values.</summary>
    public ISeriesStore Series { get; }

    /// <summary>The methods.</summary>
    public IVersionedStore Methods { get; }

    /// <summary>The specifications.</summary>
    public IVersionedStore Specifications { get; }

    /// <summary>The references of colour differences.</summary>
    public IVersionedStore References { get; }

    /// <summary>The control charts.</summary>
    public IVersionedStore ControlCharts { get; }

    /// <summary>The keys of callers.</summary>
    public IVersionedStore Keys { get; }

    /// <summary>Opens the store of a file, and creates or upgrades the file where needed.</summary>
    /// <param name="path">The file. Its folder must exist.</param>
    /// <param name="clock">The clock of the time of recording.</param>
    /// <returns>The store; disposing it finishes what is in flight.</returns>
    /// <exception cref="StoreFormatException">The file is something else, or a newer version wrote it.</exception>
    /// <exception cref="StoreUnavailableException">The file cannot be opened for writing.</exception>
    public static SqliteStore Open(string path, TimeProvider clock) => Open(path, clock, Migration.All);

    /// <summary>Commits what is in flight, then closes the file.</summary>
    /// <returns>A task that completes when the file is closed.</returns>
    public async ValueTask DisposeAsync()
    {
        // The writer first: what is in flight still goes through the commands.
        await _file.DisposeAsync().ConfigureAwait(false);
        _readingInserter.Dispose();
        _versionInserter.Dispose();
    }

    /// <summary>Opens a store with other migrations than this version's own.</summary>
    internal static SqliteStore Open(string path, TimeProvider clock, ImmutableArray<Migration> migrations) =>
        new(StoreFile.Open(path, clock, migrations));

    private SqliteVersionedStore Documents(VersionedKind kind) => new(_file, _versionInserter, kind);
}

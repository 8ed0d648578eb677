using System.Data.Common;

using ClearView.Records.Sql;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>Tells every server of a database how far the order of recording is complete.</summary>
/// <remarks>
/// <para>
/// Whoever is about to take sequences first takes a shared advisory lock whose key holds the last sequence given so far: all that
/// it will take are greater. The lock of the transaction ends with it, however it ends. A second lock of the session stays until
/// the signals of its readings are stored, and ends with the session at the latest. The lowest sequence in a key is the floor up
/// to which nothing can be added; nobody waits for these locks.
/// </para>
/// <para>A key is negative, which those of <see cref="AdvisoryLocks"/> are not: −1 − 2·sequence of a transaction, −2 − 2·sequence of a session.</para>
/// </remarks>
/// <param name="connection">The writer's connection.</param>
internal sealed class RecordingFloors(NpgsqlConnection connection)
{
    private const string Held =
        """
        SELECT min((-1 - key) / 2)
        FROM (SELECT (classid::bigint << 32) | objid::bigint AS key FROM pg_locks
              WHERE locktype = 'advisory' AND objsubid = 1 AND database = (SELECT oid FROM pg_database WHERE datname = current_database())) AS held
        WHERE key < 0
        """;

    private readonly List<(long Floor, HashSet<long> Awaited)> _held = [];
    private long? _taken;

    /// <summary>The last place in the order of recording before which nothing can be added any more.</summary>
    /// <param name="connection">A connection outside of a transaction: each statement has to see its own moment.</param>
    /// <param name="beforeSignals">Whether readings count whose signals are not stored yet.</param>
    public static long Complete(DbConnection connection, bool beforeSignals)
    {
        // First the last sequence that was committed, then the locks: whoever took a lower one held its lock before, and either
        // holds it still or has ended. What was given and not committed is no measure: a crash of the database may give it again.
        using var given = Commands.Make(connection, "SELECT coalesce(max(sequence), 0) FROM reading_id");
        var last = (long)given.ExecuteScalar()!;
        using var floor = Commands.Make(connection, beforeSignals ? Held + " AND key % 2 = -1" : Held);
        return floor.ExecuteScalar() is long held ? Math.Min(last, held) : last;
    }

    /// <summary>Takes the locks, within the transaction and before sequences are taken.</summary>
    /// <param name="untilSignals">Whether to hold the second one too.</param>
    public async Task TakeAsync(bool untilSignals)
    {
        var take = new NpgsqlCommand(
            """
            WITH floor AS MATERIALIZED (SELECT CASE WHEN is_called THEN last_value ELSE 0 END AS sequence FROM reading_sequence)
            SELECT sequence, pg_advisory_xact_lock_shared(-1 - 2 * sequence),
                   CASE WHEN @until_signals THEN pg_advisory_lock_shared(-2 - 2 * sequence) END
            FROM floor
            """,
            connection);
        await using var ofCall = take.ConfigureAwait(false);
        take.Parameters.AddWithValue("until_signals", untilSignals);
        var rows = await take.ExecuteReaderAsync().ConfigureAwait(false);
        await using var ofRows = rows.ConfigureAwait(false);
        if (await rows.ReadAsync().ConfigureAwait(false) && untilSignals)
        {
            _taken = rows.GetInt64(0);
        }
    }

    /// <summary>After the commit: holds the lock for these readings, and no longer for those.</summary>
    /// <param name="awaited">Sequences of this transaction whose signals are to come.</param>
    /// <param name="settled">Sequences whose signals are stored.</param>
    public Task KeepAsync(IEnumerable<long> awaited, IEnumerable<long> settled)
    {
        if (_taken is { } floor)
        {
            _taken = null;
            _held.Add((floor, [.. awaited]));
        }

        foreach (var sequence in settled)
        {
            _held.Find(held => held.Awaited.Contains(sequence)).Awaited?.Remove(sequence);
        }

        var done = _held.Where(held => held.Awaited.Count == 0).Select(held => held.Floor).ToArray();
        _held.RemoveAll(held => held.Awaited.Count == 0);
        return ReleaseAsync(done);
    }

    /// <summary>After a transaction that was rolled back: its lock of the session would stay.</summary>
    public Task ForgetAsync()
    {
        long[] done = _taken is { } floor ? [floor] : [];
        _taken = null;
        return ReleaseAsync(done);
    }

    /// <summary>Before the session ends: readings that still await signals are listed without.</summary>
    public Task ReleaseAllAsync() => RunAsync(new NpgsqlCommand("SELECT pg_advisory_unlock_all()", connection));

    private async Task ReleaseAsync(long[] floors)
    {
        if (floors.Length > 0)
        {
            var release = new NpgsqlCommand("SELECT pg_advisory_unlock_shared(-2 - 2 * floor) FROM unnest(@floors) AS done (floor)", connection);
            release.Parameters.AddWithValue("floors", floors);
            await RunAsync(release).ConfigureAwait(false);
        }
    }

    private static async Task RunAsync(NpgsqlCommand release)
    {
        try
        {
            await using var ofCall = release.ConfigureAwait(false);
            await release.ExecuteNonQueryAsync().ConfigureAwait(false);
        }
        catch (Exception error) when (error is InvalidOperationException || PostgresErrors.IsOfDatabase(error))
        {
            // What was committed stays so. A connection that is lost has no locks any more, and the next write finds out.
        }
    }
}

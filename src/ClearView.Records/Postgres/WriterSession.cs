using ClearView.Records.Audit;
using ClearView.Records.Model;
using ClearView.Records.Retention;
using ClearView.Records.Sql;
using ClearView.Records.Writing;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>The writer's connection, and what was learnt through it.</summary>
internal sealed class WriterSession : IAsyncDisposable
{
    private readonly NpgsqlConnection _connection;
    private readonly IStoreDatabase _database;
    private readonly MonthPartitions _months;
    private readonly LabelCodes _codes;
    private readonly RowCopy _copy;
    private readonly RecordingFloors _floors;
    private readonly AwaitedRows _awaited;
    private readonly OwnSequences _own;
    private readonly ServerChain _chain;

    private WriterSession(NpgsqlConnection connection, IStoreDatabase database, OwnSequences own, ServerChain chain)
    {
        _connection = connection;
        _database = database;
        _own = own;
        _months = new MonthPartitions(connection);
        _codes = new LabelCodes(connection);
        _copy = new RowCopy(connection);
        _floors = new RecordingFloors(connection);
        _awaited = new AwaitedRows(connection);
        _chain = chain;
    }

    /// <summary>Whether the connection is still there, as far as it knows.</summary>
    public bool IsOpen => _connection.State == System.Data.ConnectionState.Open;

    /// <summary>Whether a commit was sent and not confirmed, so that what was written may be stored nevertheless.</summary>
    public bool IsInDoubt { get; private set; }

    /// <summary>Opens a session that commits durably, whatever the database's default is.</summary>
    public static async Task<WriterSession> OpenAsync(NpgsqlDataSource source, IStoreDatabase database, OwnSequences own)
    {
        var connection = await source.OpenConnectionAsync().ConfigureAwait(false);
        try
        {
            // Stricter settings than "on" (remote_apply) are the operator's choice and stay. A server machine that is gone without a
            // word must not keep its locks: the database notices within half a minute.
            var command = new NpgsqlCommand(
                """
                SELECT set_config('synchronous_commit', 'on', false) WHERE current_setting('synchronous_commit') NOT IN ('on', 'remote_apply');
                SELECT set_config('tcp_keepalives_idle', '10', false), set_config('tcp_keepalives_interval', '5', false),
                       set_config('tcp_keepalives_count', '3', false), set_config('idle_in_transaction_session_timeout', '30s', false)
                """,
                connection);
            await using var ofCall = command.ConfigureAwait(false);
            await command.ExecuteNonQueryAsync().ConfigureAwait(false);
            return new WriterSession(connection, database, own, await ServerChain.ClaimAsync(connection).ConfigureAwait(false));
        }
        catch
        {
            await connection.DisposeAsync().ConfigureAwait(false);
            throw;
        }
    }

    /// <summary>Writes a batch and commits it.</summary>
    public async Task CommitAsync(IReadOnlyList<IPromise> batch, DateTimeOffset now)
    {
        IsInDoubt = false;
        var readings = batch.OfType<PendingReading>().ToList();
        var settled = batch.OfType<PendingSignals>().ToList();
        foreach (var signals in settled)
        {
            signals.Outcome = signals.Signals;
        }

        if (settled.Count == batch.Count && settled.TrueForAll(signals => signals.Signals.Length == 0))
        {
            await _awaited.RemoveLightlyAsync(settled).ConfigureAwait(false);
            await _floors.KeepAsync([], settled.Select(signals => signals.Sequence)).ConfigureAwait(false);
            return;
        }

        try
        {
            await WriteAsync(batch, readings, settled, now).ConfigureAwait(false);
        }
        catch when (!IsInDoubt && _connection.State == System.Data.ConnectionState.Open)
        {
            await _floors.ForgetAsync().ConfigureAwait(false);
            throw;
        }

        var awaited = readings.Where(reading => reading is { Entry.AwaitsSignals: true, Outcome: { AlreadyStored: false, Refusal: null } });
        await _floors.KeepAsync(awaited.Select(reading => reading.Outcome!.Reading.Sequence), settled.Select(signals => signals.Sequence)).ConfigureAwait(false);
    }

    /// <summary>Forgets which months have parts: one may have been retired meanwhile.</summary>
    public void ForgetMonths() => _months.Forget();

    /// <summary>Ends the session and with it every lock.</summary>
    public async ValueTask DisposeAsync()
    {
        // A connection that goes back to the pool would keep them: those of the order of recording and that of the chain.
        await _floors.ReleaseAllAsync().ConfigureAwait(false);
        await _connection.DisposeAsync().ConfigureAwait(false);
    }

    private async Task WriteAsync(IReadOnlyList<IPromise> batch, List<PendingReading> readings, List<PendingSignals> settled, DateTimeOffset now)
    {
        await _months.EnsureAsync(readings.Select(reading => reading.Entry.MeasuredAt)).ConfigureAwait(false);
        await _codes.EnsureAsync(readings.Where(reading => !reading.Entry.Values.IsEmpty).SelectMany(reading => Texts(reading.Entry))).ConfigureAwait(false);

        var transaction = await _connection.BeginTransactionAsync().ConfigureAwait(false);
        await using var ofBatch = transaction.ConfigureAwait(false);

        _chain.Begin();
        List<(RecordKey, byte[])> records = [];

        if (readings.Count > 0)
        {
            await _floors.TakeAsync(readings.Exists(reading => reading.Entry.AwaitsSignals)).ConfigureAwait(false);
        }

        // Always readings, then documents: whoever locks in one order does not wait crosswise.
        foreach (var run in Runs(readings))
        {
            await WriteRunAsync(run, records, now, transaction).ConfigureAwait(false);
        }

        foreach (var signals in settled.Where(signals => signals.Signals.Length > 0))
        {
            if (SignalRows.Insert(_connection, transaction, signals.Line, signals.Sequence, signals.Signals))
            {
                records.Add((RecordKey.Signals(signals.Sequence), RecordHash.OfSignals(signals.Line, signals.Sequence, signals.Signals)));
            }
        }

        await _awaited.RemoveAsync(settled).ConfigureAwait(false);
        await WriteDocumentsAsync([.. batch.OfType<PendingDocument>()], records, now, transaction).ConfigureAwait(false);
        if (records.Count > 0)
        {
            await _copy.LinksAsync(_chain.Next(records, transaction)).ConfigureAwait(false);
        }

        IsInDoubt = true;
        await transaction.CommitAsync().ConfigureAwait(false);
        IsInDoubt = false;
        _chain.Commit();
    }

    private static IEnumerable<string> Texts(ReadingEntry entry) =>
        [entry.Line, entry.Product, entry.Lot, entry.Roll, entry.Instrument, .. entry.Values.Select(value => value.Measurand)];

    // A correction stands by itself: what it corrects may come before it in the batch.
    private static IEnumerable<List<PendingReading>> Runs(List<PendingReading> readings)
    {
        List<PendingReading> run = [];
        foreach (var reading in readings)
        {
            if (run.Count > 0 && (reading.Entry.Corrects is not null || run[0].Entry.Corrects is not null))
            {
                yield return run;
                run = [];
            }

            run.Add(reading);
        }

        if (run.Count > 0)
        {
            yield return run;
        }
    }

    private async Task WriteRunAsync(
        List<PendingReading> run, List<(RecordKey Record, byte[] Hash)> records, DateTimeOffset now, NpgsqlTransaction transaction)
    {
        if (run is not [{ Entry.Corrects: { } corrects } correction])
        {
            await WriteReadingsAsync(run, corrected: null, records, now, transaction).ConfigureAwait(false);
            return;
        }

        // Of two servers that correct the same reading the second waits for the first, and then gives its identifier back.
        const string before = "correction";
        if (ReadingRows.Find(_connection, transaction, _database, correction.Entry.Id) is not null
            || RetiredRows.Find(_connection, transaction, _database, correction.Entry.Id) is not null)
        {
            await WriteReadingsAsync(run, corrected: null, records, now, transaction).ConfigureAwait(false);
            return;
        }

        var refusal = CorrectionRows.Check(_connection, transaction, _database, corrects, out var corrected);
        if (refusal is null)
        {
            var known = records.Count;
            await transaction.SaveAsync(before).ConfigureAwait(false);
            await WriteReadingsAsync(run, corrected, records, now, transaction).ConfigureAwait(false);
            if (correction.Outcome!.AlreadyStored
                || CorrectionRows.Insert(_connection, transaction, _database, correction.Outcome.Reading))
            {
                return;
            }

            await transaction.RollbackAsync(before).ConfigureAwait(false);
            records.RemoveRange(known, records.Count - known);
            refusal = CorrectionRows.Check(_connection, transaction, _database, corrects, out _);
        }

        correction.Outcome = new AppendOutcome(refusal ?? new CorrectionRefusal(CorrectionFault.Superseded, null));
    }

    private async Task WriteReadingsAsync(
        List<PendingReading> readings, StoredReading? corrected, List<(RecordKey Record, byte[] Hash)> records, DateTimeOffset now, NpgsqlTransaction transaction)
    {
        // The first of equal identifiers in the batch stands for the others.
        var firsts = readings.GroupBy(reading => reading.Entry.Id).Select(group => group.First()).ToList();
        var sequences = await ClaimAsync(firsts).ConfigureAwait(false);
        _own.Take(sequences.Values);
        var stored = firsts.Where(reading => sequences.ContainsKey(reading.Entry.Id))
            .Select(reading => new StoredReading(reading.Entry, now, sequences[reading.Entry.Id])
            {
                CorrectedSequence = corrected?.Sequence ?? 0,
                CorrectedLine = corrected?.Entry.Line ?? "",
            }).ToList();
        if (stored.Count > 0)
        {
            await _copy.ReadingsAsync(stored).ConfigureAwait(false);
            await _awaited.AddAsync([.. stored.Where(reading => reading.Entry.AwaitsSignals).Select(reading => (reading.Entry.Line, reading.Sequence))]).ConfigureAwait(false);
            await _copy.ValuesAsync(stored.SelectMany(reading => SeriesValue.Of(reading.Entry, reading.Sequence)), _codes).ConfigureAwait(false);
        }

        records.AddRange(stored.Select(reading => (RecordKey.Reading(reading.Sequence), RecordHash.Of(reading, reading.Entry.Values, RecordHash.OfPicture(reading.Entry.Picture.Span)))));
        foreach (var reading in stored.Where(reading => !reading.Entry.Picture.IsEmpty))
        {
            PictureRows.Insert(_connection, transaction, reading.Entry.Line, reading.Sequence, reading.Entry.Picture);
        }

        var byId = stored.ToDictionary(reading => reading.Entry.Id, reading => reading with { Entry = reading.Entry.WithoutParts() });
        foreach (var reading in readings)
        {
            var id = reading.Entry.Id;
            var isFirst = sequences.Remove(id);
            if (!byId.TryGetValue(id, out var found))
            {
                found = ReadingRows.Find(_connection, transaction, _database, id);
                if (found is null && RetiredRows.Find(_connection, transaction, _database, id) is { } retired)
                {
                    reading.Outcome = new AppendOutcome(retired);
                    continue;
                }

                byId.Add(id, found ?? throw new InvalidOperationException($"The identifier {id} is taken, and its reading is not there."));
            }

            reading.Outcome = new AppendOutcome(found, alreadyStored: !isFirst);
        }
    }

    // Takes the identifiers that are free. One that another server is about to commit is waited for, in the order of identifiers
    // so that nobody waits crosswise. Sequences are given in the order of posting; those of taken identifiers are left out.
    // Whichever unique indexes there are decide: the key of the line, and the guard of all lines where it stands.
    private async Task<Dictionary<Guid, long>> ClaimAsync(List<PendingReading> readings)
    {
        var claim = new NpgsqlCommand(
            """
            WITH numbered AS MATERIALIZED (
                SELECT id, line, measured_at, nextval('reading_sequence') AS sequence
                FROM (SELECT id, line, measured_at
                      FROM unnest(@ids, @lines, @times) WITH ORDINALITY AS posted (id, line, measured_at, place)
                      WHERE NOT EXISTS (SELECT 1 FROM reading_id WHERE reading_id.id = posted.id)
                      ORDER BY place) AS free)
            , claimed AS (
                INSERT INTO reading_id (id, line, measured_at, sequence)
                SELECT id, line, measured_at, sequence FROM numbered ORDER BY id
                ON CONFLICT DO NOTHING
                RETURNING id, sequence)
            SELECT numbered.id, claimed.sequence FROM numbered LEFT JOIN claimed ON claimed.id = numbered.id
            """,
            _connection);
        await using var ofCall = claim.ConfigureAwait(false);
        claim.Parameters.AddWithValue("ids", readings.Select(reading => reading.Entry.Id).ToArray());
        claim.Parameters.AddWithValue("lines", readings.Select(reading => reading.Entry.Line).ToArray());
        claim.Parameters.AddWithValue("times", readings.Select(reading => reading.Entry.MeasuredAt.UtcTicks).ToArray());
        Dictionary<Guid, long> sequences = [];
        var rows = await claim.ExecuteReaderAsync().ConfigureAwait(false);
        await using var ofRows = rows.ConfigureAwait(false);
        while (await rows.ReadAsync().ConfigureAwait(false))
        {
            // Another server stored it meanwhile, perhaps with others of this line behind it: the numbers given here came too early.
            if (await rows.IsDBNullAsync(1).ConfigureAwait(false))
            {
                throw new PostgresException("An identifier was taken while it was waited for.", "ERROR", "ERROR", PostgresErrorCodes.SerializationFailure);
            }

            sequences.Add(rows.GetGuid(0), rows.GetInt64(1));
        }

        return sequences;
    }

    private async Task WriteDocumentsAsync(
        List<PendingDocument> documents, List<(RecordKey Record, byte[] Hash)> records, DateTimeOffset now, NpgsqlTransaction transaction)
    {
        if (documents.Count == 0)
        {
            return;
        }

        // Documents are rare: one lock for all of them, until the commit, instead of one per name.
        var command = new NpgsqlCommand($"SELECT pg_advisory_xact_lock({AdvisoryLocks.Documents})", _connection);
        await using var ofCall = command.ConfigureAwait(false);
        await command.ExecuteNonQueryAsync().ConfigureAwait(false);
        foreach (var document in documents)
        {
            var outcome = VersionRows.InsertNext(_connection, transaction, document.Kind, document.Entry, now);
            document.Outcome = outcome;
            if (!outcome.AlreadyStored)
            {
                records.Add((RecordHash.KeyOf(document.Kind, outcome.Version), RecordHash.Of(document.Kind, outcome.Version)));
            }
        }
    }
}

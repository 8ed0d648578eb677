using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>Rows of readings whose signals are not stored yet.</summary>
/// <param name="connection">The writer's connection.</param>
internal sealed class AwaitedRows(NpgsqlConnection connection)
{
    private const string Remove =
        """
        DELETE FROM awaited_signal USING unnest(@lines, @sequences) AS done (line, sequence)
        WHERE awaited_signal.line = done.line AND awaited_signal.sequence = done.sequence
        """;

    private const string RemoveWithoutFlush =
        "WITH relaxed AS MATERIALIZED (SELECT set_config('synchronous_commit', 'off', true)), removed AS (" + Remove + ") SELECT * FROM relaxed";

    /// <summary>Adds readings, within the transaction that inserts them.</summary>
    public Task AddAsync(IReadOnlyCollection<(string Line, long Sequence)> readings) => readings.Count == 0 ? Task.CompletedTask : RunAsync(
        new NpgsqlCommand("INSERT INTO awaited_signal (line, sequence) SELECT * FROM unnest(@lines, @sequences)", connection),
        readings);

    /// <summary>Takes readings out whose signals the same transaction stores.</summary>
    public Task RemoveAsync(IReadOnlyCollection<PendingSignals> settled) => settled.Count == 0 ? Task.CompletedTask : RunAsync(
        new NpgsqlCommand(Remove, connection), settled.Select(signals => (signals.Line, signals.Sequence)));

    /// <summary>
    /// Takes readings out that raised nothing, outside of a transaction, and does not wait for the disk: a row that stays has its
    /// reading held against the charts once more.
    /// </summary>
    public async Task RemoveLightlyAsync(IReadOnlyCollection<PendingSignals> settled)
    {
        try
        {
            await RunAsync(new NpgsqlCommand(RemoveWithoutFlush, connection), settled.Select(signals => (signals.Line, signals.Sequence))).ConfigureAwait(false);
        }
        catch (Exception error) when (error is InvalidOperationException || PostgresErrors.IsOfDatabase(error))
        {
            // A connection that is lost shows at the next write.
        }
    }

    private static async Task RunAsync(NpgsqlCommand command, IEnumerable<(string Line, long Sequence)> readings)
    {
        await using var ofCall = command.ConfigureAwait(false);

        var rows = readings.ToList();
        command.Parameters.AddWithValue("lines", rows.ConvertAll(reading => reading.Line));
        command.Parameters.AddWithValue("sequences", rows.ConvertAll(reading => reading.Sequence));
        await command.ExecuteNonQueryAsync().ConfigureAwait(false);
    }
}

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>Codes of texts that repeat.</summary>
/// <remarks>
/// Codes are made before the transaction that uses them and are never taken back, so that a code that was seen once stays good as
/// long as the connection: a database that was restored to an earlier moment meanwhile has ended it.
/// </remarks>
/// <param name="connection">The writer's connection.</param>
internal sealed class LabelCodes(NpgsqlConnection connection)
{
    // Rolls and lots go on for years; what was not used lately is looked up again.
    private const int MostCached = 10_000;

    private readonly Dictionary<string, long> _codes = new(StringComparer.Ordinal);

    /// <summary>The code of a text that <see cref="EnsureAsync"/> was asked for last.</summary>
    public long this[string text] => _codes[text];

    /// <summary>Finds or makes the codes of texts.</summary>
    public async Task EnsureAsync(IEnumerable<string> texts)
    {
        // All of one request stay together, also when the cache is emptied for them.
        var wanted = texts.ToHashSet(StringComparer.Ordinal);
        if (_codes.Count + wanted.Count > MostCached)
        {
            _codes.Clear();
        }

        // In the order of the text, so that two servers do not wait for each other crosswise.
        var missing = wanted.Where(text => !_codes.ContainsKey(text)).Order(StringComparer.Ordinal).ToArray();
        if (missing.Length == 0)
        {
            return;
        }

        if (await FindAsync(missing).ConfigureAwait(false) < missing.Length)
        {
            var insert = new NpgsqlCommand(
                "INSERT INTO label (text) SELECT text FROM unnest(@texts) AS new (text) WHERE NOT EXISTS (SELECT 1 FROM label WHERE label.text = new.text) ORDER BY text ON CONFLICT (text) DO NOTHING",
                connection);
            await using var ofCall = insert.ConfigureAwait(false);
            insert.Parameters.AddWithValue("texts", missing);
            await insert.ExecuteNonQueryAsync().ConfigureAwait(false);

            // A statement of its own, which also sees what another server made in between.
            await FindAsync(missing).ConfigureAwait(false);
        }
    }

    private async Task<int> FindAsync(string[] texts)
    {
        var find = new NpgsqlCommand("SELECT text, code FROM label WHERE text = ANY (@texts)", connection);
        await using var ofCall = find.ConfigureAwait(false);
        find.Parameters.AddWithValue("texts", texts);
        var rows = await find.ExecuteReaderAsync().ConfigureAwait(false);
        await using var ofRows = rows.ConfigureAwait(false);
        var count = 0;
        while (await rows.ReadAsync().ConfigureAwait(false))
        {
            _codes[rows.GetString(0)] = rows.GetInt64(1);
            count++;
        }

        return count;
    }
}

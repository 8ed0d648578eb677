using ClearView.Records.Tests.Behaviour;

using Npgsql;

namespace ClearView.Records.Tests.Postgres;

/// <summary>What a database that is spread over machines by line asks of the keys.</summary>
public sealed class LineKeysTests(PostgresCluster cluster) : IAsyncDisposable
{
    /// <summary>The one key that goes across lines; a plain index takes its place where the tables are spread over machines.</summary>
    private const string Guard = "reading_id_guard";

    /// <summary>The same for links, which are spread by their chain.</summary>
    private const string GuardOfLinks = "link_of_record";

    // A new table belongs in one of these lists, and into docs/decisions with its reason.
    private static readonly string[] SpreadByLine = ["awaited_signal", "correction", "picture", "reading", "reading_id", "reading_signal", "series_value"];
    private static readonly string[] SpreadByChain = ["link"];
    private static readonly string[] WholeOnEachMachine = ["adoption", "label", "migration", "month_export", "retired_month", "versioned"];

    private readonly TemporaryPostgresStore _temporary = new(cluster);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Fact]
    public async Task Tables_AreSpreadByLineOrByChainOrAreWhole()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);

        const string tables =
            """
            SELECT relname::text, EXISTS (SELECT 1 FROM pg_attribute WHERE attrelid = pg_class.oid AND attname = 'line' AND NOT attisdropped)::text
            FROM pg_class WHERE relnamespace = 'clearview'::regnamespace AND relkind IN ('r', 'p') AND NOT relispartition ORDER BY relname
            """;
        var byLine = (await RowsAsync(tables)).ToLookup(row => row[1] == "true", row => row[0]);

        Assert.Equal(SpreadByLine, byLine[true]);
        Assert.Equal([.. SpreadByChain.Concat(WholeOnEachMachine).Order(StringComparer.Ordinal)], byLine[false]);
    }

    [Fact]
    public async Task UniqueIndexes_AreLedByTheLine_ButForTheGuard()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);

        var keys = await KeysAsync("line");

        // The parts of the tables are among them.
        Assert.Equal(
            [.. SpreadByLine, "reading_2026_03", "series_value_2026_03"],
            keys.Where(key => key.First == "line").Select(key => key.Table).Distinct().OrderBy(table => table.Contains("2026", StringComparison.Ordinal)).ThenBy(table => table, StringComparer.Ordinal));
        Assert.Equal([Guard], keys.Where(key => key.First != "line").Select(key => key.Index));
    }

    [Fact]
    public async Task UniqueIndexesOfLinks_AreLedByTheChain_ButForTheirGuard()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);

        var keys = await KeysAsync("chain");

        Assert.Equal(SpreadByChain, keys.Where(key => key.First == "chain").Select(key => key.Table).Distinct());
        Assert.Equal([GuardOfLinks], keys.Where(key => key.First != "chain").Select(key => key.Index));
    }

    // Unique indexes of every table that has a column, with the column that leads each; none where an expression does.
    private async Task<List<(string Table, string Index, string First)>> KeysAsync(string column) =>
    [
        .. (await RowsAsync(
            $"""
            SELECT owner.relname::text, index.relname::text, coalesce(lead.attname::text, '')
            FROM pg_index
            JOIN pg_class AS owner ON owner.oid = indrelid
            JOIN pg_class AS index ON index.oid = indexrelid
            LEFT JOIN pg_attribute AS lead ON lead.attrelid = indrelid AND lead.attnum = indkey[0]
            WHERE owner.relnamespace = 'clearview'::regnamespace AND (indisunique OR indisexclusion)
                AND EXISTS (SELECT 1 FROM pg_attribute WHERE attrelid = indrelid AND attname = '{column}' AND NOT attisdropped)
            ORDER BY owner.relname, index.relname
            """)).Select(row => (row[0], row[1], row[2])),
    ];

    private async Task<List<string[]>> RowsAsync(string sql)
    {
        await using var connection = new NpgsqlConnection(_temporary.ConnectionString + ";Search Path=clearview;Pooling=false");
        await connection.OpenAsync(Token);
#pragma warning disable CA2100 // Statements are constants of the tests.
        await using var command = new NpgsqlCommand(sql, connection);
#pragma warning restore CA2100
        await using var rows = await command.ExecuteReaderAsync(Token);
        List<string[]> list = [];
        while (await rows.ReadAsync(Token))
        {
            list.Add([.. Enumerable.Range(0, rows.FieldCount).Select(rows.GetString)]);
        }

        return list;
    }
}

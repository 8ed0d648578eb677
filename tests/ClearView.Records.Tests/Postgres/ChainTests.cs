using System.Globalization;

using ClearView.Records.Audit;
using ClearView.Records.Exchange;
using ClearView.Records.Model;
using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Postgres;

public sealed class ChainTests(PostgresCluster cluster) : ChainBehaviour(new TemporaryPostgresStore(cluster))
{
    [Fact]
    public async Task Append_ThroughManyServersAtOnce_WritesAChainEachAndCoversTheOthers()
    {
        const int servers = 5;
        List<IStore> stores = [];
        for (var i = 0; i < servers; i++)
        {
            stores.Add(await Temporary.OpenAnotherAsync());
        }

        await Task.WhenAll(Enumerable.Range(0, 4000).Select(number => stores[number % servers].Readings.AppendAsync(TemporaryStore.Entry(number), Token)));
        await Task.WhenAll(stores.Select(store => store.Documents(VersionedKind.Method).StoreAsync(VersionedBehaviour.Entry("film-25", 1), Token)));
        var report = await VerifyAsync();
        foreach (var store in stores)
        {
            await store.DisposeAsync();
        }

        Assert.Null(report.Break);
        Assert.Equal((4000L, 1L), (report.Readings, report.Documents));
        Assert.Equal(servers, report.Heads.Length);
        Assert.True(report.Links > 4001, "no chain covered another");
    }

    [Fact]
    public async Task Verify_ReadingSlippedInUnderTheNumberOfAnother_IsTold()
    {
        await FillAsync();

        Execute(
            """
            INSERT INTO reading (line, measured_at, id, sequence, recorded_at, product, lot, roll, specimen, instrument, software_version,
                                 method, measurement, evaluation)
            SELECT line, measured_at, gen_random_uuid(), sequence, recorded_at, product, lot, roll, specimen, instrument, software_version,
                   method, measurement, evaluation
            FROM reading WHERE sequence = 5
            """);

        Assert.Equal(new ChainBreak(ChainFault.RecordWithoutLink, 0, 0, Record: null), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Append_AfterAServerIsGone_GoesOnWithItsChain()
    {
        await FillAsync();
        await Temporary.ReopenAsync();
        await using var other = await Temporary.OpenAnotherAsync();

        await other.Readings.AppendAsync(TemporaryStore.Entry(20), Token);
        await Temporary.Store.AppendAsync(TemporaryStore.Entry(21), Token);

        Assert.Equal([1L, 2L], (await VerifyAsync()).Heads.Select(head => head.Chain));
    }

    [Fact]
    public async Task Append_WhenAnotherWroteTheNextLink_TakesAnotherChain()
    {
        await FillAsync();

        // As a session does that lost its lock without knowing.
        Execute("INSERT INTO link (chain, position, number, kind, name, record_hash, hash) SELECT 1, 11, 99, 'reading', '', record_hash, hash FROM link WHERE position = 10");
        var outcome = await Temporary.Store.AppendAsync(TemporaryStore.Entry(20), Token);

        Assert.False(outcome.AlreadyStored);
        Assert.Equal(1L, Temporary.Scalar("SELECT count(*) FROM link WHERE kind = 'reading' AND number = " + outcome.Reading.Sequence.ToString(CultureInfo.InvariantCulture)));
    }

    [Fact]
    public async Task Verify_EndCutOff_IsShownByTheChainThatCoversIt()
    {
        await FillAsync();
        await using var other = await Temporary.OpenAnotherAsync();
        await other.Readings.AppendAsync(TemporaryStore.Entry(20), Token);
        foreach (var table in new[] { "link", "versioned" })
        {
            DropGuards(table);
        }

        Execute("DELETE FROM link WHERE chain = 1 AND position = 10");
        Execute("DELETE FROM versioned");

        Assert.Equal(new ChainBreak(ChainFault.CoveredHeadMissing, 1, 10, Record: null), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Copy_OfManyChains_KeepsThemAndCoversThem()
    {
        await FillAsync();
        await using var other = await Temporary.OpenAnotherAsync();
        await other.Readings.AppendAsync(TemporaryStore.Entry(20), Token);
        await using var file = new Sqlite.TemporarySqliteStore();
        await StoreCopy.RunAsync(Temporary.Opened, file.Opened, Token);

        await file.Store.AppendAsync(TemporaryStore.Entry(30), Token);
        var report = await file.Opened.Audit.VerifyAsync(await Temporary.Opened.Audit.HeadsAsync(Token), progress: null, Token);

        Assert.Null(report.Break);
        Assert.Equal(2, report.Heads.Length);
        Assert.Equal(1L, file.Scalar("SELECT count(*) FROM link WHERE kind = 'heads' AND chain = 1"));
    }

    [Theory]
    [InlineData("id", "(left(id::text, -1) || '7')::uuid")]
    [InlineData("line", "'line 2'")]
    [InlineData("measured_at", "measured_at # 1")]
    [InlineData("sequence", "sequence # 64")]
    public async Task Verify_IdentifierOfAReadingChanged_NamesIt(string column, string changed)
    {
        await FillAsync();
        DropGuards("reading_id");

        Execute($"UPDATE reading_id SET {column} = {changed} WHERE sequence = 5");

        Assert.Equal(new ChainBreak(ChainFault.RecordMissing, 1, 5, RecordKey.Reading(5)), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Verify_PlacesOfTwoReadingsSwapped_NamesTheFirst()
    {
        await FillAsync();
        DropGuards("reading_id");

        Execute("UPDATE reading_id SET sequence = 11 - sequence WHERE sequence IN (5, 6)");

        Assert.Equal(new ChainBreak(ChainFault.RecordMissing, 1, 5, RecordKey.Reading(5)), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Verify_CoveredHeadChanged_NamesTheLinkThatCovers()
    {
        await FillAsync();
        await using var other = await Temporary.OpenAnotherAsync();
        await other.Readings.AppendAsync(TemporaryStore.Entry(20), Token);
        DropGuards("link");

        Execute("UPDATE link SET covers = set_byte(covers, 47, get_byte(covers, 47) # 1) WHERE covers IS NOT NULL");

        Assert.Equal(new ChainBreak(ChainFault.RecordChanged, 2, 1, new RecordKey("heads", "2", 1)), (await VerifyAsync()).Break);
    }

    private protected override void DropGuards(string table)
    {
        Execute($"ALTER TABLE {table} DISABLE TRIGGER ALL");
        if (table is "reading" or "series_value")
        {
            Execute($"ALTER TABLE {table}_2026_03 DISABLE TRIGGER ALL");
        }
    }

    private protected override string Flipped(string table, string column, string where) =>
        Temporary.Scalar($"SELECT data_type FROM information_schema.columns WHERE table_schema = 'clearview' AND table_name = '{table}' AND column_name = '{column}'") switch
        {
            "bytea" => $"set_byte({column}, length({column}) - 1, get_byte({column}, length({column}) - 1) # 1)",
            "text" => $"CASE {column} WHEN '' THEN chr(1) ELSE left({column}, -1) || chr(ascii(right({column}, 1)) # 1) END",
            "uuid" => $"(left({column}::text, -1) || to_hex(('x' || right({column}::text, 1))::bit(4)::int # 1))::uuid",
            "double precision" => NextNumber(table, column, where),
            _ => $"{column} # 64",
        };

    private string NextNumber(string table, string column, string where)
    {
        var number = (double)Temporary.Scalar($"SELECT {column} FROM {table} WHERE {where}")!;
        return BitConverter.Int64BitsToDouble(BitConverter.DoubleToInt64Bits(number) ^ 1).ToString("R", CultureInfo.InvariantCulture);
    }

    private protected override void SlipIdentifierIn() =>
        Execute("INSERT INTO reading_id (id, line, measured_at, sequence) SELECT gen_random_uuid(), line, measured_at, 77 FROM reading WHERE sequence = 5");

    private protected override void SlipReadingIn() => Execute(
        """
        INSERT INTO reading (sequence, id, measured_at, recorded_at, line, product, lot, roll, specimen, instrument, software_version, method, measurement, evaluation)
        SELECT 77, gen_random_uuid(), measured_at, recorded_at, line, product, lot, roll, specimen, instrument, software_version, method, measurement, evaluation
        FROM reading WHERE sequence = 5
        """);
}

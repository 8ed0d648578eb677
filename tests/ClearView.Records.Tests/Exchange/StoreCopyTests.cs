using ClearView.Records.Exchange;
using ClearView.Records.Tests.Behaviour;
using ClearView.Records.Tests.Postgres;
using ClearView.Records.Tests.Sqlite;

namespace ClearView.Records.Tests.Exchange;

public sealed class StoreCopyTests(PostgresCluster cluster) : IAsyncDisposable
{
    private readonly TemporarySqliteStore _file = new();
    private readonly TemporarySqliteStore _back = new();
    private readonly TemporaryPostgresStore _database = new(cluster);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public async ValueTask DisposeAsync()
    {
        await _file.DisposeAsync();
        await _back.DisposeAsync();
        await _database.DisposeAsync();
    }

    [Fact]
    public async Task Copy_ToPostgresAndBack_KeepsEveryRowSequenceAndTime()
    {
        await Fill(_file);

        var there = await StoreCopy.RunAsync(_file.Opened, _database.Opened, Token);
        var back = await StoreCopy.RunAsync(_database.Opened, _back.Opened, Token);

        // Counted by SQL beside the digest, and the rows of both files compared by SQLite itself.
        Assert.Equal((1200L, 2400L, 3L, 120L, 1323L), (there.Readings, there.Values, there.Documents, there.Signals, there.Links));
        Assert.Equal(there, back);
        Assert.Equal(1200L, _database.Scalar("SELECT count(*) FROM reading"));
        Assert.Equal(120L, _database.Scalar("SELECT count(*) FROM reading_signal"));
        _database.AssertIntact();
        foreach (var table in new[] { "reading", "reading_signal", "versioned" })
        {
            Assert.Equal(0L, Difference($"SELECT * FROM {table}", $"SELECT * FROM other.{table}"));
        }

        Assert.Equal(0L, Difference(Series(""), Series("other.")));
    }

    [Fact]
    public async Task Copy_ToPostgresAndBack_KeepsCorrectionsAndPicturesWithTheirLines()
    {
        await Fill(_file);
        for (var number = 0; number < 30; number++)
        {
            // Most within their line, some of another one.
            await _file.Store.AppendAsync(CorrectionBehaviour.Correction(2000 + number, number) with { Line = "line " + number % 4 }, Token);
        }

        var there = await StoreCopy.RunAsync(_file.Opened, _database.Opened, Token);
        var back = await StoreCopy.RunAsync(_database.Opened, _back.Opened, Token);

        Assert.Equal(there, back);
        Assert.Equal(30L, _file.Scalar("SELECT count(*) FROM correction JOIN reading ON reading.id = superseded AND reading.line = correction.line"));
        Assert.Equal(30L, _database.Scalar("SELECT count(*) FROM correction JOIN reading_id ON id = superseded AND reading_id.line = correction.line"));
        Assert.Equal(30L, _database.Scalar("SELECT count(*) FROM picture JOIN reading_id USING (line, sequence)"));
        foreach (var table in new[] { "reading", "correction", "picture", "link" })
        {
            Assert.Equal(0L, Difference($"SELECT * FROM main.{table}", $"SELECT * FROM other.{table}"));
        }

        foreach (var store in new TemporaryStore[] { _file, _database, _back })
        {
            Assert.Null((await store.Opened.Audit.VerifyAsync([], progress: null, Token)).Break);
        }
    }

    [Fact]
    public async Task Copy_ToPostgresAndBack_KeepsWhatStillAwaitsItsSignals()
    {
        for (var number = 0; number < 40; number++)
        {
            await _file.Store.AppendAsync(TemporaryStore.Entry(number, entry => entry with { Line = "line " + number % 3, AwaitsSignals = number % 4 == 0 }), Token);
        }

        var there = await StoreCopy.RunAsync(_file.Opened, _database.Opened, Token);
        var back = await StoreCopy.RunAsync(_database.Opened, _back.Opened, Token);

        Assert.Equal(there, back);
        long[] awaiting = [1, 5, 9, 13, 17, 21, 25, 29, 33, 37];
        Assert.Equal(awaiting, await _database.Opened.Recorded.ListLeftAsync(Token));
        Assert.Equal(awaiting, await _back.Opened.Recorded.ListLeftAsync(Token));
        Assert.Equal(10L, _database.Scalar("SELECT count(*) FROM awaited_signal JOIN reading USING (line, sequence)"));
    }

    [Fact]
    public async Task Copy_IntoAStoreThatHoldsSomething_IsRefused()
    {
        await Fill(_file);
        await _database.Methods.StoreAsync(VersionedBehaviour.Entry("film-25", 1), Token);
        await _back.Store.AppendAsync(TemporaryStore.Entry(1), Token);

        var ofDatabase = await Assert.ThrowsAsync<StoreCopyException>(() => StoreCopy.RunAsync(_file.Opened, _database.Opened, Token));
        var ofFile = await Assert.ThrowsAsync<StoreCopyException>(() => StoreCopy.RunAsync(_file.Opened, _back.Opened, Token));

        Assert.Contains("not empty", ofDatabase.Message, StringComparison.Ordinal);
        Assert.Contains("not empty", ofFile.Message, StringComparison.Ordinal);
        Assert.Equal(0L, _database.Scalar("SELECT count(*) FROM reading"));
        Assert.Equal(1L, _back.Scalar("SELECT count(*) FROM reading"));
    }

    [Fact]
    public async Task Copy_ThatTheTargetDistorts_IsDroppedAndSaysSo()
    {
        await Fill(_file);
        await _database.Store.CheckAsync(Token);
        _database.Scalar(
            """
            CREATE FUNCTION distort() RETURNS trigger LANGUAGE plpgsql AS 'BEGIN NEW.lot := NEW.lot || ''x''; RETURN NEW; END';
            CREATE TRIGGER distort BEFORE INSERT ON reading FOR EACH ROW EXECUTE FUNCTION distort();
            """);

        var error = await Assert.ThrowsAsync<StoreCopyException>(() => StoreCopy.RunAsync(_file.Opened, _database.Opened, Token));

        Assert.Contains("differs", error.Message, StringComparison.Ordinal);
        Assert.Equal(0L, _database.Scalar("SELECT count(*) FROM reading"));
        Assert.Equal(0L, _database.Scalar("SELECT count(*) FROM series_value"));
    }

    [Fact]
    public async Task Copy_ThenAppend_GoesOnBehindTheLastSequence()
    {
        await Fill(_file);
        await StoreCopy.RunAsync(_file.Opened, _database.Opened, Token);

        var outcome = await _database.Store.AppendAsync(TemporaryStore.Entry(5000), Token);
        var again = await _database.Store.AppendAsync(TemporaryStore.Entry(7), Token);

        Assert.Equal(1201, outcome.Reading.Sequence);
        Assert.True(again.AlreadyStored);
    }

    private static string Series(string schema) =>
        $"""
        SELECT line.text, measurand.text, measured_at, sequence, value, product.text, lot.text, roll.text, instrument.text, across_mm, along_m
        FROM {schema}series_value AS series
        JOIN {schema}label AS line ON line.code = series.line JOIN {schema}label AS measurand ON measurand.code = series.measurand
        JOIN {schema}label AS product ON product.code = series.product JOIN {schema}label AS lot ON lot.code = series.lot
        JOIN {schema}label AS roll ON roll.code = series.roll JOIN {schema}label AS instrument ON instrument.code = series.instrument
        """;

    private static async Task Fill(TemporarySqliteStore store)
    {
        for (var number = 0; number < 3; number++)
        {
            await store.Methods.StoreAsync(VersionedBehaviour.Entry("film-25", (byte)number), Token);
        }

        var outcomes = await Task.WhenAll(Enumerable.Range(0, 1200).Select(number => store.Store.AppendAsync(
            TemporaryStore.Entry(number, entry => entry with
            {
                Line = "line " + number % 3,
                MeasuredAt = TemporaryStore.Noon.AddDays(number % 90).AddTicks(number),
                AcrossMm = number % 4 == 0 ? null : 0.1 * number,
            }),
            Token)));
        foreach (var reading in outcomes.Select(outcome => outcome.Reading).Where(reading => reading.Sequence % 10 == 0))
        {
            await store.Opened.Recorded.SettleAsync(reading, new byte[] { 6, (byte)reading.Sequence });
        }
    }

    private object? Difference(string first, string second) => _file.Scalar(
        $"ATTACH '{_back.File}' AS other; SELECT (SELECT count(*) FROM ({first} EXCEPT {second})) + (SELECT count(*) FROM ({second} EXCEPT {first}))");
}

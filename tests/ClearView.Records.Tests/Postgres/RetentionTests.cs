using System.Globalization;

using ClearView.Records.Audit;
using ClearView.Records.Exchange;
using ClearView.Records.Model;
using ClearView.Records.Postgres;
using ClearView.Records.Retention;
using ClearView.Records.Sqlite;
using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Postgres;

/// <summary>Months that are exported and taken out. The store's clock stands in March 2026.</summary>
public sealed class RetentionTests(PostgresCluster cluster) : IAsyncDisposable
{
    private static readonly DateTimeOffset January = new(2026, 1, 15, 8, 0, 0, TimeSpan.Zero);
    private static readonly MonthSpan February = new(2026, 2);

    private readonly TemporaryPostgresStore _temporary = new(cluster);
    private readonly string _folder = Directory.CreateTempSubdirectory("clearview-retention-").FullName;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private PostgresStore Store => (PostgresStore)_temporary.Opened;

    public async ValueTask DisposeAsync()
    {
        await _temporary.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Retire_MovesTheMonthIntoAnExport_ThatHoldsEveryRowOfIt()
    {
        await FillAsync();
        var january = (await ListAsync(_temporary.Opened)).Where(reading => reading.Entry.MeasuredAt < new DateTimeOffset(2026, 2, 1, 0, 0, 0, TimeSpan.Zero)).ToList();

        var retired = Assert.Single(await RetireAsync());

        Assert.Equal(("2026-01", 1L, 6L, 12L, "readings-2026-01.db"), (retired.Month, retired.Part, retired.Readings, retired.Values, retired.ExportFile));
        Assert.Equal(["readings-2026-01.db"], Directory.GetFiles(_folder).Select(Path.GetFileName));
        Assert.Equal(5, (await ListAsync(_temporary.Opened)).Count);
        Assert.Equal(0L, _temporary.Scalar("SELECT count(*) FROM reading WHERE measured_at < 639055008000000000"));
        Assert.Equal(6L, _temporary.Scalar("SELECT count(*) FROM clearview_retired.reading_2026_01"));
        Assert.Equal(12L, _temporary.Scalar("SELECT count(*) FROM clearview_retired.series_value_2026_01"));
        await using var export = Open("readings-2026-01.db");
        var exported = await ListAsync(export);
        Assert.Equal(january.Select(Text), exported.Select(Text));
        Assert.Equal(new byte[] { 7, 7 }, exported.Single(reading => reading.Entry.Id == TemporaryStore.Id(2)).Signals.ToArray());
        Assert.Equal(TemporaryStore.Id(3), exported.Single(reading => reading.Entry.Id == TemporaryStore.Id(5)).Entry.Corrects);
        Assert.Equal(new byte[] { 9, 8, 7 }, await export.Pictures.FindAsync("line 1", exported.Single(reading => reading.Entry.Id == TemporaryStore.Id(4)).Sequence, Token));
    }

    [Fact]
    public async Task Retire_ReadingsThatAwaitTheirSignals_AreRefusedUntilTheyHaveThem()
    {
        await FillAsync();
        _temporary.Scalar("INSERT INTO awaited_signal (line, sequence) SELECT line, sequence FROM reading WHERE measured_at < 639055008000000000 LIMIT 1");

        var refusal = await Assert.ThrowsAsync<RetentionException>(() => RetireAsync());

        Assert.Contains("start a server", refusal.Message, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(_folder));
        Assert.Equal(6L, _temporary.Scalar("SELECT count(*) FROM reading WHERE measured_at < 639055008000000000"));
        _temporary.Scalar("DELETE FROM awaited_signal");
        Assert.Single(await RetireAsync());
    }

    [Fact]
    public async Task Retired_PartsRefuseChanges()
    {
        await FillAsync();
        await RetireAsync();

        foreach (var change in new[] { "UPDATE clearview_retired.reading_2026_01 SET lot = 'x'", "DELETE FROM clearview_retired.series_value_2026_01", "TRUNCATE clearview_retired.reading_2026_01", "DELETE FROM retired_month", "UPDATE retired_month SET readings = 0" })
        {
            var error = Assert.Throws<Npgsql.PostgresException>(() => _temporary.Scalar(change));
            Assert.Contains("append-only", error.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Verify_CountsRetiredReadings_AndTheRetirementHasALink()
    {
        await FillAsync();
        await RetireAsync();

        var report = await VerifyAsync();

        Assert.Null(report.Break);
        Assert.Equal((5L, 6L, ""), (report.Readings, report.Retired, report.ExportOfMonth));
        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM link WHERE kind = 'retired' AND name = '2026-01' AND number = 1"));
    }

    [Fact]
    public async Task Verify_OfTheExport_ComparesItsRecords_AndGivesTheDigestThatTheStoreKeeps()
    {
        await FillAsync();
        var retired = Assert.Single(await RetireAsync());
        await using var export = Open(retired.ExportFile);

        var report = await export.Audit.VerifyAsync([], progress: null, Token);

        Assert.Null(report.Break);
        Assert.Equal((6L, "2026-01", retired.Sha256), (report.Readings, report.ExportOfMonth, report.ExportSha256));
        var taken = await Assert.ThrowsAnyAsync<Exception>(() => export.Readings.AppendAsync(TemporaryStore.Entry(50), Token));
        Assert.Contains("takes nothing more", taken.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Export_HoldsNoNotedHead_AndIsNotCopied()
    {
        await FillAsync();
        var retired = Assert.Single(await RetireAsync());
        await using var export = Open(retired.ExportFile);
        await using var target = new Sqlite.TemporarySqliteStore();
        var head = (await export.Audit.HeadsAsync(Token))[0];

        var report = await export.Audit.VerifyAsync([head], progress: null, Token);
        var refused = await Assert.ThrowsAsync<StoreCopyException>(() => StoreCopy.RunAsync(export, target.Opened, Token));

        Assert.Equal(new ChainBreak(ChainFault.NotedHeadMissing, head.Chain, head.Position, Record: null), report.Break);
        Assert.Contains("export of 2026-01", refused.Message, StringComparison.Ordinal);
        Assert.Equal(0L, target.Scalar("SELECT count(*) FROM reading"));
    }

    [Fact]
    public async Task Verify_OfAnExportThatWasChanged_NamesTheReading()
    {
        await FillAsync();
        var retired = Assert.Single(await RetireAsync());
        using (var connection = new Microsoft.Data.Sqlite.SqliteConnection($"Data Source={Path.Combine(_folder, retired.ExportFile)};Pooling=false"))
        {
            connection.Open();
            using var command = connection.CreateCommand();
            command.CommandText = "DROP TRIGGER reading_is_never_changed; UPDATE reading SET lot = 'other' WHERE sequence = 2";
            command.ExecuteNonQuery();
        }

        await using var export = Open(retired.ExportFile);
        var report = await export.Audit.VerifyAsync([], progress: null, Token);

        Assert.Equal((ChainFault.RecordChanged, RecordKey.Reading(2)), (report.Break!.Fault, report.Break.Record));
    }

    [Theory]
    [InlineData("DELETE FROM reading WHERE sequence = (SELECT min(sequence) FROM reading)", ChainFault.RecordMissing)]
    [InlineData("DELETE FROM reading_id WHERE sequence = 1", ChainFault.RecordMissing)]
    [InlineData("INSERT INTO reading_id (id, line, measured_at, sequence) SELECT gen_random_uuid(), line, measured_at, 77 FROM reading_id WHERE sequence = 1", ChainFault.PartWithoutRecord)]
    [InlineData("UPDATE retired_month SET readings = readings + 1", ChainFault.RecordChanged)]
    [InlineData("UPDATE retired_month SET next_tick = next_tick + 25920000000000", ChainFault.RecordChanged)]
    [InlineData("DELETE FROM retired_month", ChainFault.RecordMissing)]
    [InlineData("UPDATE correction SET line = 'line 2'", ChainFault.PartWithoutRecord)]
    public async Task Verify_WhatWasRemovedOtherwise_IsABreak(string change, ChainFault fault)
    {
        await FillAsync();
        await RetireAsync();
        foreach (var table in new[] { "reading", "reading_2026_02", "reading_id", "retired_month", "correction" })
        {
            _temporary.Scalar($"ALTER TABLE {table} DISABLE TRIGGER ALL");
        }

        _temporary.Scalar(change);

        Assert.Equal(fault, (await VerifyAsync()).Break?.Fault);
    }

    [Fact]
    public async Task Append_OfARetiredIdentifier_SaysWhereItIs_AndSoDoesFind()
    {
        await FillAsync();
        await RetireAsync();

        var outcome = await _temporary.Store.AppendAsync(Entry(1, January), Token);

        Assert.True(outcome.AlreadyStored);
        Assert.Equal("2026-01", outcome.Retired!.Month);
        Assert.Contains("readings-2026-01.db", outcome.Retired.ToString(), StringComparison.Ordinal);
        Assert.Null(await _temporary.Store.FindAsync(TemporaryStore.Id(1), Token));
        Assert.Equal("2026-01", (await _temporary.Store.FindRetiredAsync(TemporaryStore.Id(1), Token))!.Month);
        Assert.Null(await _temporary.Store.FindRetiredAsync(TemporaryStore.Id(10), Token));
        Assert.Null(await _temporary.Store.FindRetiredAsync(TemporaryStore.Id(999), Token));
    }

    [Fact]
    public async Task Append_CorrectionOfARetiredReading_IsRefused()
    {
        await FillAsync();
        await RetireAsync();

        var refused = await _temporary.Store.AppendAsync(Correction(60, 1, TemporaryStore.Noon), Token);
        var again = await _temporary.Store.AppendAsync(Correction(5, 3, January), Token);

        Assert.Equal((CorrectionFault.Retired, "2026-01"), (refused.Refusal!.Fault, refused.Refusal.Retired!.Month));
        Assert.Equal("2026-01", again.Retired!.Month);
        Assert.Null((await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Append_LateReading_BeginsANewPart_ThatIsRetiredIntoAnotherFile()
    {
        await FillAsync();
        await using var other = await _temporary.OpenAnotherAsync();
        await other.Readings.AppendAsync(Entry(40, January), Token);
        await RetireAsync();

        // Both servers knew the part that was taken out.
        await _temporary.Store.AppendAsync(Entry(41, January), Token);
        await other.Readings.AppendAsync(Entry(42, January), Token);
        Assert.Equal(TemporaryStore.Id(41), (await _temporary.Store.FindAsync(TemporaryStore.Id(41), Token))!.Entry.Id);
        Assert.Null((await VerifyAsync()).Break);
        var second = Assert.Single(await RetireAsync());

        Assert.Equal((2L, 2L, "readings-2026-01-2.db"), (second.Part, second.Readings, second.ExportFile));
        Assert.Equal(2L, _temporary.Scalar("SELECT count(*) FROM clearview_retired.reading_2026_01_2"));
        Assert.Equal(7L, _temporary.Scalar("SELECT count(*) FROM clearview_retired.reading_2026_01"));
        Assert.Equal(2L, (await _temporary.Store.FindRetiredAsync(TemporaryStore.Id(41), Token))!.Part);
        var report = await VerifyAsync();
        Assert.Null(report.Break);
        Assert.Equal((5L, 9L), (report.Readings, report.Retired));
    }

    [Fact]
    public async Task Detach_WhereAReadingCameAfterTheExport_LeavesTheMonth()
    {
        await FillAsync();
        var database = (PostgresDatabase)((IStoreBehind)Store).Database;
        var month = new MonthSpan(2026, 1);
        var export = await MonthExport.WriteAsync(database, month, _folder, ExportFlush.Folder, _temporary.Clock, Token);
        await _temporary.Store.AppendAsync(Entry(40, January), Token);
        var planned = new RetiredMonth("2026-01", 1, month.FirstTick, month.NextTick, 0, 0, 6, 12, export.Contents.Sha256, "x", January, "x");

        var detached = await database.ReadAsync(
            connection => MonthDetachment.RunAsync(connection, month, export, planned).GetAwaiter().GetResult(), () => false, Token);

        Assert.Null(detached);
        Assert.Equal(7L, _temporary.Scalar("SELECT count(*) FROM reading WHERE measured_at < 639055008000000000"));
        Assert.Equal(0L, _temporary.Scalar("SELECT count(*) FROM retired_month"));
        Assert.Equal(0L, _temporary.Scalar("SELECT count(*) FROM pg_locks WHERE locktype = 'advisory' AND classid = 1129074251 AND objid > 1"));
    }

    [Fact]
    public async Task Retire_WhilePosting_LosesNothing()
    {
        await FillAsync();
        using var stop = new CancellationTokenSource();
        var posted = new List<Guid>();
        var posting = Task.Run(
            async () =>
            {
                for (var number = 100; !stop.IsCancellationRequested; number++)
                {
                    await _temporary.Store.AppendAsync(Entry(number, TemporaryStore.Noon), Token);
                    posted.Add(TemporaryStore.Id(number));
                }
            },
            Token);

        var retired = await RetireAsync();
        await stop.CancelAsync();
        await posting;

        Assert.Single(retired);
        Assert.NotEmpty(posted);
        var report = await VerifyAsync();
        Assert.Null(report.Break);
        Assert.Equal(5 + posted.Count, report.Readings);
    }

    [Fact]
    public async Task Recorded_GoesOnBehindTheHole()
    {
        await FillAsync();
        await RetireAsync();

        var page = await _temporary.Opened.Recorded.ListAsync(new RecordedQuery { PageSize = 100 }, Token);

        Assert.Equal(Enumerable.Range(10, 5).Select(TemporaryStore.Id), page.Readings.Select(reading => reading.Entry.Id));
        Assert.Equal(11, page.Through);
    }

    [Fact]
    public async Task Retire_RefusesTheCurrentMonth_AndAFileThatIsThere_AndPassesOverEmptyMonths()
    {
        await FillAsync();
        await File.WriteAllTextAsync(Path.Combine(_folder, "readings-2026-01.db"), "mine", Token);

        var later = await Assert.ThrowsAsync<RetentionException>(() => RetireAsync(new MonthSpan(2026, 4)));
        var exists = await Assert.ThrowsAsync<RetentionException>(() => RetireAsync());

        Assert.Contains("2026-03", later.Message, StringComparison.Ordinal);
        Assert.Contains("exists already", exists.Message, StringComparison.Ordinal);
        Assert.Equal("mine", await File.ReadAllTextAsync(Path.Combine(_folder, "readings-2026-01.db"), Token));
        Assert.Equal(11, (await ListAsync(_temporary.Opened)).Count);
        Assert.Empty(await RetireAsync(new MonthSpan(2026, 1)));
    }

    [Fact]
    public async Task Copy_OfAStoreWithRetiredMonths_IsRefused()
    {
        await FillAsync();
        await RetireAsync();
        await using var file = new Sqlite.TemporarySqliteStore();

        var refused = await Assert.ThrowsAsync<StoreCopyException>(() => StoreCopy.RunAsync(_temporary.Opened, file.Opened, Token));

        Assert.Contains("retired", refused.Message, StringComparison.Ordinal);
    }

    private static ReadingEntry Entry(int number, DateTimeOffset measuredAt) =>
        TemporaryStore.Entry(number, entry => entry with { MeasuredAt = measuredAt.AddSeconds(number) });

    private static ReadingEntry Correction(int number, int corrected, DateTimeOffset measuredAt) =>
        Entry(number, measuredAt) with { Corrects = TemporaryStore.Id(corrected), CorrectionNote = new byte[] { 1 } };

    private static string Text(StoredReading reading) => string.Create(
        CultureInfo.InvariantCulture,
        $"{reading.Sequence} {reading.Entry.Id} {reading.RecordedAt:O} {reading.Entry.MeasuredAt:O} {reading.Entry.Lot} {reading.CorrectedSequence} {reading.SupersededBy} {Convert.ToHexString(reading.Signals.Span)} {Convert.ToHexString(reading.Entry.Measurement.Span)}");

    // Six of January (one with signals, one with a picture, one that corrects another), then five of February.
    private async Task FillAsync()
    {
        for (var number = 0; number < 5; number++)
        {
            var entry = Entry(number, January);
            entry = number == 4 ? entry with { Picture = new byte[] { 9, 8, 7 }, PictureInfo = new byte[] { 1 } } : entry;
            var stored = await _temporary.Store.AppendAsync(entry with { AwaitsSignals = number == 2 }, Token);
            if (number == 2)
            {
                await _temporary.Opened.Recorded.SettleAsync(stored.Reading, new byte[] { 7, 7 });
            }
        }

        await _temporary.Store.AppendAsync(Correction(5, 3, January), Token);
        for (var number = 10; number < 15; number++)
        {
            await _temporary.Store.AppendAsync(Entry(number, January.AddMonths(1)), Token);
        }
    }

    private async Task<List<RetiredMonth>> RetireAsync(MonthSpan? before = null)
    {
        List<RetiredMonth> retired = [];
        await foreach (var month in MonthRetirement.RunAsync(Store, before ?? February, _folder, "E. Marsh", _temporary.Clock, Token))
        {
            retired.Add(month);
        }

        return retired;
    }

    private static async Task<IReadOnlyList<StoredReading>> ListAsync(IStore store) =>
        (await store.Readings.ListAsync(new ReadingQuery { PageSize = 1000 }, Token)).Readings;

    private SqliteStore Open(string file) => SqliteStore.Open(Path.Combine(_folder, file), TimeProvider.System);

    private Task<AuditReport> VerifyAsync() => _temporary.Opened.Audit.VerifyAsync([], progress: null, Token);
}

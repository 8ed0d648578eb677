using System.Globalization;

using ClearView.Records.Audit;
using ClearView.Records.Model;
using ClearView.Records.Postgres;
using ClearView.Records.Retention;
using ClearView.Records.Schema;
using ClearView.Records.Tests.Behaviour;

using Npgsql;

namespace ClearView.Records.Tests.Postgres;

/// <summary>A database of an earlier schema, with the rows of a store of today, is brought forward. The store's clock stands in March 2026.</summary>
public sealed class EarlierSchemaTests(PostgresCluster cluster) : IAsyncDisposable
{
    private const int WithoutLines = 5;

    private static readonly string[] Tables =
        ["label", "reading_id", "reading", "series_value", "reading_signal", "correction", "picture", "versioned", "link", "retired_month"];

    private readonly TemporaryPostgresStore _today = new(cluster);
    private readonly TemporaryPostgresStore _earlier = new(cluster);
    private readonly string _folder = Directory.CreateTempSubdirectory("clearview-earlier-").FullName;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public async ValueTask DisposeAsync()
    {
        await _today.DisposeAsync();
        await _earlier.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Open_SchemaWithoutLines_KeepsEveryRowAndGivesItsLine()
    {
        await FillAsync();
        await MakeEarlierAsync();

        var migrated = await ListAsync(_earlier.Opened);

        Assert.Equal((await ListAsync(_today.Opened)).Select(Text), migrated.Select(Text));
        foreach (var table in Tables)
        {
            Assert.Equal(Rows(_today, table), Rows(_earlier, table));
        }

        // Of January one reading was corrected in January and one in February, from another line.
        Assert.Equal(3L, _earlier.Scalar("SELECT count(*) FROM correction JOIN reading_id ON id = superseded AND reading_id.line = correction.line"));
        Assert.Equal(2L, _earlier.Scalar("SELECT count(*) FROM correction JOIN retired_reading ON id = superseded"));
        Assert.Equal(4L, _earlier.Scalar("SELECT count(*) FROM picture JOIN reading_id USING (line, sequence)"));
        foreach (var reading in migrated.Where(reading => !reading.Entry.PictureInfo.IsEmpty))
        {
            Assert.Equal([6, 6, 6], await _earlier.Opened.Pictures.FindAsync(reading.Entry.Line, reading.Sequence, Token));
        }
    }

    [Fact]
    public async Task Open_SchemaWithoutLines_KeepsTheChain_AndTheRetiredMonth()
    {
        await FillAsync();
        await MakeEarlierAsync();

        var report = await VerifyAsync(_earlier);

        Assert.Null(report.Break);
        Assert.Equal((6L, 5L, 1L), (report.Readings, report.Retired, report.Documents));
        Assert.Equal((await VerifyAsync(_today)).Heads, report.Heads);
        Assert.Equal("2026-01", (await _earlier.Store.FindRetiredAsync(TemporaryStore.Id(0), Token))!.Month);
        Assert.Equal(5L, _earlier.Scalar("SELECT count(*) FROM clearview_retired.reading_2026_01"));
    }

    [Fact]
    public async Task Open_SchemaWithoutLines_GoesOnAsBefore()
    {
        await FillAsync();
        await MakeEarlierAsync();

        Assert.True((await _earlier.Store.AppendAsync(Entry(10), Token)).AlreadyStored);
        Assert.Equal("2026-01", (await _earlier.Store.AppendAsync(Entry(1), Token)).Retired!.Month);
        Assert.Equal(
            new CorrectionRefusal(CorrectionFault.Superseded, TemporaryStore.Id(15)),
            (await _earlier.Store.AppendAsync(Correction(30, 10, "line 3"), Token)).Refusal);
        Assert.Null((await _earlier.Store.AppendAsync(Correction(31, 11, "line 3"), Token)).Refusal);
        Assert.Null((await VerifyAsync(_earlier)).Break);
        foreach (var change in new[] { "UPDATE correction SET line = 'x'", "UPDATE picture SET line = 'x'", "DELETE FROM picture", "UPDATE reading_id SET line = 'x'" })
        {
            Assert.Contains("append-only", Assert.Throws<PostgresException>(() => _earlier.Scalar(change)).Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Open_SchemaWithoutLines_WithAPictureOfNoReading_KeepsItForTheVerification()
    {
        await FillAsync();
        await MakeEarlierAsync();
        _earlier.Scalar("INSERT INTO picture (sequence, body) VALUES (99, 'x')");

        Assert.Equal(ChainFault.PartWithoutRecord, (await VerifyAsync(_earlier)).Break!.Fault);
        Assert.Equal("", _earlier.Scalar("SELECT line FROM picture WHERE sequence = 99"));
    }

    private static ReadingEntry Entry(int number) => TemporaryStore.Entry(number, entry => entry with
    {
        Line = "line " + number % 2,
        MeasuredAt = TemporaryStore.Noon.AddMonths(number < 10 ? -2 : -1).AddSeconds(number),
    });

    private static ReadingEntry Correction(int number, int corrected, string line) =>
        CorrectionBehaviour.Correction(number, corrected) with { Line = line, MeasuredAt = Entry(number).MeasuredAt };

    private static async Task<IReadOnlyList<StoredReading>> ListAsync(IStore store) =>
        (await store.Readings.ListAsync(new ReadingQuery { PageSize = 1000 }, Token)).Readings;

    private static string Text(StoredReading reading) => string.Create(
        CultureInfo.InvariantCulture,
        $"{reading.Sequence} {reading.Entry.Id} {reading.Entry.Line} {reading.RecordedAt:O} {reading.Entry.MeasuredAt:O} {reading.Entry.Corrects} {reading.CorrectedSequence} {reading.CorrectedLine} {reading.SupersededBy} {Convert.ToHexString(reading.Signals.Span)}");

    private static Task<AuditReport> VerifyAsync(TemporaryPostgresStore store) => store.Opened.Audit.VerifyAsync([], progress: null, Token);

    // Five readings of January, which is retired, and six of February: pictures, signals, and corrections within and across both.
    private async Task FillAsync()
    {
        foreach (var number in new[] { 0, 1, 2 })
        {
            await _today.Store.AppendAsync(Entry(number), Token);
        }

        await _today.Store.AppendAsync(Entry(3) with { Picture = new byte[] { 6, 6, 6 }, PictureInfo = new byte[] { 1 } }, Token);
        await _today.Store.AppendAsync(Correction(4, 1, "line 1"), Token);
        foreach (var number in new[] { 10, 11, 12, 13 })
        {
            var stored = await _today.Store.AppendAsync(Entry(number) with { AwaitsSignals = true }, Token);
            await _today.Opened.Recorded.SettleAsync(stored.Reading, number == 11 ? new byte[] { 7, 7 } : []);
        }

        await _today.Store.AppendAsync(Correction(14, 0, "line 3"), Token);
        await _today.Store.AppendAsync(Correction(15, 10, "line 3"), Token);
        await _today.Methods.StoreAsync(VersionedBehaviour.Entry("film-25", 1), Token);
        await foreach (var retired in MonthRetirement.RunAsync((PostgresStore)_today.Opened, new MonthSpan(2026, 2), _folder, "E. Marsh", _today.Clock, Token))
        {
            Assert.Equal(("2026-01", 5L), (retired.Month, retired.Readings));
        }
    }

    // The schema by its own migrations; the rows in the columns that it has, by COPY.
    private async Task MakeEarlierAsync()
    {
        await (await PostgresStore.OpenAsync(_earlier.ConnectionString, _earlier.Clock, [.. Migration.OfPostgres.Take(WithoutLines)], Token)).DisposeAsync();
        Assert.Equal(0L, _earlier.Scalar("SELECT count(*) FROM information_schema.columns WHERE table_name IN ('correction', 'picture') AND column_name = 'line'"));
        foreach (var month in new[] { new MonthSpan(2026, 1), new MonthSpan(2026, 2) })
        {
            _earlier.Scalar($"SELECT ensure_month('{month.PartName}', {month.FirstTick}, {month.NextTick})");
        }

        foreach (var table in Tables)
        {
            CopyTable(table, table == "label" ? "label WHERE code <> 0" : table);
        }

        foreach (var table in new[] { "reading", "series_value" })
        {
            CopyTable(table, $"clearview_retired.{table}_2026_01");
        }

        _earlier.Scalar(
            """
            SELECT retire_month('2026_01', '');
            SELECT setval('reading_sequence', max(sequence)) FROM reading_id;
            SELECT setval(pg_get_serial_sequence('label', 'code'), max(code)) FROM label;
            """);
    }

    private void CopyTable(string table, string from)
    {
        var columns = Columns(_earlier, table);
        using var target = Connect(_earlier);
        using var import = target.BeginTextImport($"COPY {table} ({columns}) FROM STDIN");
        import.Write(Rows(_today, from, columns));
    }

    private static string Rows(TemporaryPostgresStore store, string table) => Rows(store, table, Columns(store, table));

    private static string Rows(TemporaryPostgresStore store, string from, string columns)
    {
        using var connection = Connect(store);
        using var export = connection.BeginTextExport($"COPY (SELECT {columns} FROM {from} ORDER BY {columns}) TO STDOUT");
        return export.ReadToEnd();
    }

    private static string Columns(TemporaryPostgresStore store, string table) => (string)store.Scalar(
        $"SELECT string_agg(column_name, ', ' ORDER BY ordinal_position) FROM information_schema.columns WHERE table_schema = 'clearview' AND table_name = '{table}'")!;

    private static NpgsqlConnection Connect(TemporaryPostgresStore store)
    {
        var connection = new NpgsqlConnection(store.ConnectionString + ";Search Path=clearview;Pooling=false");
        connection.Open();
        return connection;
    }
}

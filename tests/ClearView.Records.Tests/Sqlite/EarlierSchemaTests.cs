using ClearView.Records.Model;
using ClearView.Records.Schema;
using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Sqlite;

public sealed class EarlierSchemaTests : IAsyncDisposable
{
    private readonly TemporarySqliteStore _temporary = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Fact]
    public async Task Open_StoreOfAnEarlierSchema_PutsItsReadingsIntoTheSeries()
    {
        await _temporary.ReopenAsync([.. Migration.OfSqlite.Take(3)]);
        await _temporary.CloseAsync();
        _temporary.Scalar(
            $"""
            INSERT INTO reading VALUES (1, x'00112233445566778899aabbccddeeff', {TemporaryStore.Noon.UtcTicks}, 0, 'line 1', 'clear 25', '', 'R-1', 'S', '0', x'', x'', x'');
            INSERT INTO reading_value VALUES (1, 0, 'haze', 1.25), (1, 1, 'yellowness_index', 0.5);
            """);

        var rows = await Read(new SeriesQuery { Measurand = "haze", Line = "line 1", Roll = "R-1" });

        Assert.Equal((TemporaryStore.Noon.UtcTicks, 1L, 1.25), Assert.Single(rows.Select(row => (row.MeasuredAtTicks, row.Sequence, row.Value))));
        Assert.Equal([0.5], (await Read(new SeriesQuery { Measurand = "yellowness_index", Product = "clear 25", Lot = "" })).Select(row => row.Value));
    }

    [Fact]
    public async Task Open_StoreOfAnEarlierSchema_KeepsItsMethodsVersionByVersion()
    {
        await _temporary.ReopenAsync([.. Migration.OfSqlite.Take(2)]);
        await _temporary.CloseAsync();
        _temporary.Scalar(
            "INSERT INTO method VALUES ('film-25', 1, 5, 'M. Arden', 'film on line 3', x'010201'), ('film-25', 2, 6, 'M. Arden', 'film on line 3', x'010202')");

        await _temporary.ReopenAsync();

        Assert.True(VersionedBehaviour.Entry("film-25", 1).SaysTheSameAs((await _temporary.Methods.FindAsync("film-25", 1, Token))!.Entry));
        Assert.Equal(6, (await _temporary.Methods.FindAsync("film-25", 2, Token))!.StoredAt.UtcTicks);
        Assert.Equal(3, (await _temporary.Methods.StoreAsync(VersionedBehaviour.Entry("film-25", 9), Token)).Version.Version);
    }

    [Fact]
    public async Task Open_StoreWithoutKeys_KeepsItsDocumentsAndStaysAppendOnly()
    {
        await _temporary.ReopenAsync([.. Migration.OfSqlite.Take(4)]);
        await _temporary.CloseAsync();
        _temporary.Scalar(
            """
            INSERT INTO versioned VALUES ('method', 'film-25', 1, 5, 'M. Arden', 'film on line 3', x'010201');
            INSERT INTO versioned VALUES ('method', 'film-25', 2, 6, 'M. Arden', 'film on line 3', x'010202');
            """);

        await _temporary.ReopenAsync();

        Assert.True(VersionedBehaviour.Entry("film-25", 2).SaysTheSameAs((await _temporary.Methods.FindAsync("film-25", 2, Token))!.Entry));
        Assert.Equal(1, (await _temporary.Opened.Documents(VersionedKind.Key).StoreAsync(VersionedBehaviour.Entry("film-25", 1), Token)).Version.Version);
        Assert.Equal(3, (await _temporary.Methods.StoreAsync(VersionedBehaviour.Entry("film-25", 9), Token)).Version.Version);
        foreach (var change in (string[])["UPDATE versioned SET body = x''", "DELETE FROM versioned", "INSERT OR REPLACE INTO versioned SELECT * FROM versioned"])
        {
            Assert.Contains("append-only", Assert.ThrowsAny<Exception>(() => _temporary.Scalar(change)).Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Open_StoreWithoutLines_GivesCorrectionsAndPicturesTheirLine()
    {
        await FillWithoutLinesAsync("");

        Assert.Equal(TemporaryStore.Id(2), (await _temporary.Store.FindAsync(TemporaryStore.Id(1), Token))!.SupersededBy);
        var correction = await _temporary.Store.FindAsync(TemporaryStore.Id(2), Token);
        Assert.Equal((TemporaryStore.Id(1), "line 1"), (correction!.Entry.Corrects, correction.CorrectedLine));
        Assert.Equal([6, 6, 6], await _temporary.Opened.Pictures.FindAsync("line 2", correction.Sequence, Token));
        var report = await _temporary.Opened.Audit.VerifyAsync([], progress: null, Token);
        Assert.Null(report.Break);
        Assert.Equal(3, report.Readings);
        Assert.Equal(CorrectionFault.Superseded, (await _temporary.Store.AppendAsync(CorrectionBehaviour.Correction(9, 1), Token)).Refusal!.Fault);
        foreach (var change in (string[])
            ["UPDATE correction SET line = ''", "DELETE FROM correction", "INSERT OR REPLACE INTO correction SELECT * FROM correction",
             "UPDATE picture SET line = ''", "DELETE FROM picture", "INSERT OR REPLACE INTO picture SELECT * FROM picture"])
        {
            Assert.Contains("append-only", Assert.ThrowsAny<Exception>(() => _temporary.Scalar(change)).Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Open_ExportWithoutLines_ThatLacksTheCorrectedReading_TakesTheLineOfTheCorrection()
    {
        await FillWithoutLinesAsync(" WHERE sequence <> 1");

        await _temporary.Store.CheckAsync(Token);

        Assert.Equal("line 2", _temporary.Scalar("SELECT line FROM correction"));
        Assert.Equal(TemporaryStore.Id(1), (await _temporary.Store.FindAsync(TemporaryStore.Id(2), Token))!.Entry.Corrects);
    }

    // The schema by its own migrations, the rows those of a store of today.
    private async Task FillWithoutLinesAsync(string whichReadings)
    {
        await using var today = new TemporarySqliteStore();
        await today.Store.AppendAsync(TemporaryStore.Entry(1), Token);
        await today.Store.AppendAsync(CorrectionBehaviour.Correction(2, 1) with { Line = "line 2" }, Token);
        await today.Store.AppendAsync(TemporaryStore.Entry(3), Token);
        await today.CloseAsync();
        await _temporary.ReopenAsync([.. Migration.OfSqlite.Take(8)]);
        await _temporary.CloseAsync();
        _temporary.Scalar(
            $"""
            ATTACH '{today.File}' AS today;
            INSERT INTO reading SELECT * FROM today.reading{whichReadings};
            INSERT INTO label SELECT * FROM today.label WHERE code <> 0;
            INSERT INTO series_value SELECT * FROM today.series_value{whichReadings};
            INSERT INTO correction SELECT superseded, superseded_sequence, by_sequence FROM today.correction;
            INSERT INTO picture SELECT sequence, body FROM today.picture;
            INSERT INTO link SELECT * FROM today.link;
            """);
    }

    private async Task<List<SeriesRow>> Read(SeriesQuery query)
    {
        List<SeriesRow> rows = [];
        await _temporary.Opened.Series.ReadAsync(query, (in SeriesRow row) => rows.Add(row), Token);
        return rows;
    }
}

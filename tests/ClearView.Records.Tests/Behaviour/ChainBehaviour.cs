using System.Globalization;

using ClearView.Records.Audit;
using ClearView.Records.Exchange;

namespace ClearView.Records.Tests.Behaviour;

/// <summary>The chains that hold every record, alike in every engine.</summary>
public abstract class ChainBehaviour : IAsyncDisposable
{
    private readonly TemporaryStore _temporary;

    private protected ChainBehaviour(TemporaryStore temporary) => _temporary = temporary;

    /// <summary>Columns of each table, each with the record that holds a row of it: the fifth reading, or the document.</summary>
    public static TheoryData<string, string> Columns { get; } = new()
    {
        { "reading", "sequence" }, { "reading", "id" }, { "reading", "measured_at" }, { "reading", "recorded_at" }, { "reading", "line" }, { "reading", "product" },
        { "reading", "lot" }, { "reading", "roll" }, { "reading", "specimen" }, { "reading", "software_version" }, { "reading", "method" },
        { "reading", "measurement" }, { "reading", "evaluation" }, { "reading", "verdict" }, { "reading", "instrument" },
        { "reading", "across_mm" }, { "reading", "along_m" },
        { "reading", "origin" }, { "reading", "correction_note" }, { "reading", "picture_info" },
        { "correction", "line" }, { "correction", "superseded" }, { "correction", "superseded_sequence" }, { "correction", "by_sequence" },
        { "picture", "line" }, { "picture", "sequence" }, { "picture", "body" },
        { "series_value", "sequence" }, { "series_value", "line" }, { "series_value", "measurand" }, { "series_value", "measured_at" }, { "series_value", "value" },
        { "series_value", "product" }, { "series_value", "lot" }, { "series_value", "roll" }, { "series_value", "instrument" },
        { "series_value", "across_mm" }, { "series_value", "along_m" },
        { "versioned", "stored_at" }, { "versioned", "stored_by" }, { "versioned", "description" }, { "versioned", "body" },
    };

    private protected TemporaryStore Temporary => _temporary;

    private protected static CancellationToken Token => TestContext.Current.CancellationToken;

    public async ValueTask DisposeAsync()
    {
        await _temporary.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    [Fact]
    public async Task Verify_ReadingsAndDocuments_Holds()
    {
        await FillAsync();

        var report = await VerifyAsync();

        Assert.Null(report.Break);
        Assert.Equal((9L, 1L, 10L), (report.Readings, report.Documents, report.Links));
        Assert.Equal(10, Assert.Single(report.Heads).Position);
    }

    [Fact]
    public async Task Verify_EmptyStore_Holds()
    {
        var report = await VerifyAsync();

        Assert.Null(report.Break);
        Assert.Empty(report.Heads);
    }

    [Fact]
    public async Task Append_TheSameAgain_AddsNoLink()
    {
        await FillAsync();
        await FillAsync();

        Assert.Equal(10, (await VerifyAsync()).Links);
    }

    [Fact]
    public async Task Append_AfterReopening_GoesOnWithTheChain()
    {
        await FillAsync();
        await _temporary.ReopenAsync();
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(50), Token);

        var report = await VerifyAsync();

        Assert.Null(report.Break);
        Assert.Equal(11, Assert.Single(report.Heads).Position);
    }

    [Theory]
    [MemberData(nameof(Columns))]
    public async Task Verify_OneBitOfAColumnFlipped_NamesTheLinkOfTheRecord(string table, string column)
    {
        await FillAsync();
        DropGuards(table);
        var expected = table == "versioned" ? new RecordKey("method", "film-25", 1) : RecordKey.Reading(5);

        Flip(table, column, expected);
        var report = await VerifyAsync();

        Assert.NotNull(report.Break);
        Assert.Equal(expected, report.Break.Record);
        Assert.Contains(report.Break.Fault, new[] { ChainFault.RecordChanged, ChainFault.RecordMissing });
        Assert.Equal((1L, table == "versioned" ? 10L : 5L), (report.Break.Chain, report.Break.Position));
    }

    [Theory]
    [InlineData("kind")]
    [InlineData("name")]
    [InlineData("number")]
    [InlineData("record_hash")]
    [InlineData("hash")]
    public async Task Verify_OneBitOfALinkFlipped_NamesTheLink(string column)
    {
        await FillAsync();
        DropGuards("link");

        Execute($"UPDATE link SET {column} = {Flipped("link", column, "position = 5")} WHERE position = 5");
        var report = await VerifyAsync();

        Assert.Equal((ChainFault.LinkChanged, 1L, 5L), (report.Break!.Fault, report.Break.Chain, report.Break.Position));
    }

    [Fact]
    public async Task Verify_LabelChanged_NamesTheFirstReadingThatUsesIt()
    {
        await FillAsync();
        DropGuards("label");

        Execute("UPDATE label SET text = 'L-8' WHERE text = 'L-7'");
        var report = await VerifyAsync();

        Assert.Equal(new ChainBreak(ChainFault.RecordChanged, 1, 1, RecordKey.Reading(1)), report.Break);
    }

    [Theory]
    [InlineData("UPDATE reading_signal SET signals = @flipped", ChainFault.RecordChanged)]
    [InlineData("UPDATE reading_signal SET line = 'line 8'", ChainFault.RecordMissing)]
    [InlineData("UPDATE reading_signal SET sequence = 3", ChainFault.RecordMissing)]
    [InlineData("DELETE FROM reading_signal", ChainFault.RecordMissing)]
    public async Task Verify_SignalsTamperedWith_NamesThem(string statement, ChainFault expected)
    {
        await FillAsync();
        var reading = (await _temporary.Store.FindAsync(TemporaryStore.Id(2), Token))!;
        await _temporary.Opened.Recorded.SettleAsync(reading, new byte[] { 1, 2, 3 });
        Assert.Null((await VerifyAsync()).Break);
        DropGuards("reading_signal");

        Execute(statement.Replace("@flipped", Flipped("reading_signal", "signals", "sequence = 2"), StringComparison.Ordinal));

        Assert.Equal(new ChainBreak(expected, 1, 11, RecordKey.Signals(2)), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Verify_SignalsSlippedIn_NamesThem()
    {
        await FillAsync();
        DropGuards("reading_signal");

        Execute("INSERT INTO reading_signal (line, sequence, signals) SELECT line, sequence, method FROM reading WHERE sequence = 2");

        Assert.Equal(new ChainBreak(ChainFault.RecordWithoutLink, 0, 0, RecordKey.Signals(2)), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Verify_ReadingRemoved_NamesIt()
    {
        await FillAsync();
        DropGuards("reading");

        Execute("DELETE FROM reading WHERE sequence = 5");

        Assert.Equal(new ChainBreak(ChainFault.RecordMissing, 1, 5, RecordKey.Reading(5)), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Verify_ValueRemoved_NamesItsReading()
    {
        await FillAsync();
        DropGuards("series_value");

        Execute("DELETE FROM series_value WHERE sequence = 5 AND value < 1");

        Assert.Equal(new ChainBreak(ChainFault.RecordChanged, 1, 5, RecordKey.Reading(5)), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Verify_ValueSlippedIn_IsFound()
    {
        await FillAsync();

        Execute("INSERT INTO series_value SELECT line, measurand, measured_at, 77, value, product, lot, roll, instrument, across_mm, along_m FROM series_value WHERE sequence = 5 AND value < 1");

        Assert.Equal(ChainFault.PartWithoutRecord, (await VerifyAsync()).Break!.Fault);
    }

    [Fact]
    public async Task Verify_ReadingSlippedIn_NamesIt()
    {
        await FillAsync();

        SlipReadingIn();

        Assert.Equal(new ChainBreak(ChainFault.RecordWithoutLink, 0, 0, RecordKey.Reading(77)), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Verify_IdentifierSlippedIn_NamesIt()
    {
        await FillAsync();

        SlipIdentifierIn();

        Assert.Equal(new ChainBreak(ChainFault.PartWithoutRecord, 0, 0, RecordKey.Reading(77)), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Verify_DocumentSlippedIn_NamesIt()
    {
        await FillAsync();

        Execute("INSERT INTO versioned SELECT kind, name, 2, stored_at, stored_by, description, body FROM versioned");

        Assert.Equal(new ChainBreak(ChainFault.RecordWithoutLink, 0, 0, new RecordKey("method", "film-25", 2)), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Verify_LinkRemoved_NamesItsPlace()
    {
        await FillAsync();
        DropGuards("link");

        Execute("DELETE FROM link WHERE position = 5");

        Assert.Equal(new ChainBreak(ChainFault.LinkMissing, 1, 5, Record: null), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Verify_LinkRemovedFromAStoreThatIsMadeAnExport_NamesItsPlace()
    {
        await FillAsync();
        DropGuards("link");

        Execute("DELETE FROM link WHERE position = 5");
        Execute("INSERT INTO month_export (month, part) VALUES ('2026-03', 1)");

        Assert.Equal(new ChainBreak(ChainFault.LinkMissing, 1, 5, Record: null), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Verify_TwoLinksSwapped_NamesTheFirst()
    {
        await FillAsync();
        DropGuards("link");

        Execute("UPDATE link SET position = 100 WHERE position = 5");
        Execute("UPDATE link SET position = 5 WHERE position = 6");
        Execute("UPDATE link SET position = 6 WHERE position = 100");

        Assert.Equal(new ChainBreak(ChainFault.LinkChanged, 1, 5, RecordKey.Reading(6)), (await VerifyAsync()).Break);
    }

    [Fact]
    public async Task Verify_EndCutOff_IsShownByANotedHead()
    {
        await FillAsync();
        var noted = await _temporary.Opened.Audit.HeadsAsync(Token);
        Assert.Null((await VerifyAsync(noted)).Break);
        await _temporary.CloseAsync();
        foreach (var table in new[] { "link", "versioned" })
        {
            DropGuards(table);
        }

        // The last record and its link, both: what is left is a good chain, only shorter.
        Execute("DELETE FROM link WHERE position = 10");
        Execute("DELETE FROM versioned");

        Assert.Null((await VerifyAsync()).Break);
        Assert.Equal(new ChainBreak(ChainFault.NotedHeadMissing, 1, 10, Record: null), (await VerifyAsync(noted)).Break);
    }

    [Fact]
    public async Task Verify_ThroughTwoServersAtOnce_Holds()
    {
        await using var other = await _temporary.OpenAnotherAsync();
        await Task.WhenAll(Enumerable.Range(0, 600).Select(number =>
            (number % 2 == 0 ? _temporary.Opened : other).Readings.AppendAsync(TemporaryStore.Entry(number), Token)));

        var report = await VerifyAsync();

        Assert.Null(report.Break);
        Assert.Equal(600, report.Readings);
    }

    [Fact]
    public async Task Links_OfRecords_AreGiven()
    {
        await FillAsync();

        var links = await _temporary.Opened.Audit.LinksAsync([RecordKey.Reading(3), new RecordKey("method", "film-25", 1), RecordKey.Reading(99)], Token);

        Assert.Equal([3L, 10L], links.Select(link => link.Link.Position));
        Assert.Equal((await _temporary.Opened.Audit.HeadsAsync(Token))[0], links[1].Link.Head);
    }

    [Fact]
    public async Task Copy_KeepsTheChain()
    {
        await FillAsync();
        await using var target = new Sqlite.TemporarySqliteStore();

        await StoreCopy.RunAsync(_temporary.Opened, target.Opened, Token);
        await target.Store.AppendAsync(TemporaryStore.Entry(60), Token);
        var report = await target.Opened.Audit.VerifyAsync(await _temporary.Opened.Audit.HeadsAsync(Token), progress: null, Token);

        Assert.Null(report.Break);
        Assert.Equal(11, Assert.Single(report.Heads).Position);
    }

    private protected async Task FillAsync()
    {
        for (var number = 1; number <= 9; number++)
        {
            await _temporary.Store.AppendAsync(number == 5 ? CorrectionBehaviour.Correction(5, 4) : TemporaryStore.Entry(number), Token);
        }

        await _temporary.Methods.StoreAsync(VersionedBehaviour.Entry("film-25", 1), Token);
    }

    private protected Task<AuditReport> VerifyAsync(IReadOnlyList<ChainHead>? noted = null) =>
        _temporary.Opened.Audit.VerifyAsync(noted ?? [], progress: null, Token);

    private protected void Execute(string sql) => _temporary.Scalar(sql);

    /// <summary>Takes the triggers of a table and its checks away, as somebody with the rights of the owner can.</summary>
    private protected abstract void DropGuards(string table);

    /// <summary>An expression that gives the value of a column with one bit flipped.</summary>
    private protected abstract string Flipped(string table, string column, string where);

    /// <summary>Inserts a reading with the sequence 77 past the store.</summary>
    private protected abstract void SlipReadingIn();

    /// <summary>Inserts an identifier with the sequence 77 past the store, and no reading.</summary>
    private protected abstract void SlipIdentifierIn();

    private void Flip(string table, string column, RecordKey record)
    {
        // Of the values of a reading one is chosen: the other one stays as it is.
        var where = string.Create(CultureInfo.InvariantCulture, $"{table switch
        {
            "versioned" => "version",
            "correction" => "by_sequence",
            "series_value" => "value < 1 AND sequence",
            _ => "sequence",
        }} = {record.Number}");
        Execute($"UPDATE {table} SET {column} = {Flipped(table, column, where)} WHERE {where}");
    }
}

using ClearView.Records.Exchange;
using ClearView.Records.Model;

namespace ClearView.Records.Tests.Behaviour;

/// <summary>Corrections, origins and pictures, alike in every engine.</summary>
public abstract class CorrectionBehaviour : IAsyncDisposable
{
    private readonly TemporaryStore _temporary;

    private protected CorrectionBehaviour(TemporaryStore temporary) => _temporary = temporary;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public async ValueTask DisposeAsync()
    {
        await _temporary.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    [Fact]
    public async Task Append_Correction_MarksTheEarlierReading()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);

        var outcome = await _temporary.Store.AppendAsync(Correction(2, 1), Token);
        var earlier = await _temporary.Store.FindAsync(TemporaryStore.Id(1), Token);
        var later = await _temporary.Store.FindAsync(TemporaryStore.Id(2), Token);

        Assert.False(outcome.AlreadyStored);
        Assert.Equal(TemporaryStore.Id(2), earlier!.SupersededBy);
        Assert.Equal((TemporaryStore.Id(1), (Guid?)null), (later!.Entry.Corrects, later.SupersededBy));
        Assert.Equal([8, 9], later.Entry.CorrectionNote.ToArray());
        Assert.Equal([7, 2], later.Entry.Origin.ToArray());
        var listed = await _temporary.Store.ListAsync(new ReadingQuery(), Token);
        Assert.Equal([TemporaryStore.Id(2), null], listed.Readings.Select(reading => reading.SupersededBy));
    }

    [Fact]
    public async Task Append_Correction_TakesTheEarlierReadingOutOfTheSeries()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);
        await _temporary.Store.AppendAsync(Correction(2, 1), Token);
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(3), Token);

        List<SeriesRow> rows = [];
        var count = await _temporary.Opened.Series.ReadAsync(new SeriesQuery { Measurand = "haze" }, (in SeriesRow row) => rows.Add(row), Token);

        Assert.Equal([0.02, 0.03], rows.Select(row => row.Value));
        Assert.Equal(2, count);
    }

    [Fact]
    public async Task Append_CorrectionOfNothing_IsRefusedAndLeavesNothing()
    {
        var outcome = await _temporary.Store.AppendAsync(Correction(2, 1), Token);

        Assert.Equal(new CorrectionRefusal(CorrectionFault.NotFound, null), outcome.Refusal);
        Assert.Null(await _temporary.Store.FindAsync(TemporaryStore.Id(2), Token));
        await AssertHoldsAsync(0);
    }

    [Fact]
    public async Task Append_SecondCorrection_IsRefusedAndNamesTheFirst()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);
        await _temporary.Store.AppendAsync(Correction(2, 1), Token);

        var second = await _temporary.Store.AppendAsync(Correction(3, 1), Token);
        var again = await _temporary.Store.AppendAsync(Correction(2, 1), Token);
        var ofCorrection = await _temporary.Store.AppendAsync(Correction(4, 2), Token);

        Assert.Equal(new CorrectionRefusal(CorrectionFault.Superseded, TemporaryStore.Id(2)), second.Refusal);
        Assert.True(again.AlreadyStored);
        Assert.Null(ofCorrection.Refusal);
        Assert.Null(await _temporary.Store.FindAsync(TemporaryStore.Id(3), Token));
        await AssertHoldsAsync(3);
    }

    [Fact]
    public async Task Append_ReadingAndItsCorrectionTogether_StoresBoth()
    {
        var outcomes = await Task.WhenAll(Enumerable.Range(0, 100).SelectMany(number => new[]
        {
            _temporary.Store.AppendAsync(TemporaryStore.Entry(2 * number), Token),
            _temporary.Store.AppendAsync(Correction(2 * number + 1, 2 * number), Token),
        }).ToList());

        Assert.All(outcomes, outcome => Assert.Null(outcome.Refusal));
        await AssertHoldsAsync(200);
    }

    [Fact]
    public async Task Append_CorrectionsThroughTwoServersAtOnce_TakesOneOfEach()
    {
        const int count = 40;
        await using var other = await _temporary.OpenAnotherAsync();
        await Task.WhenAll(Enumerable.Range(0, count).Select(number => _temporary.Store.AppendAsync(TemporaryStore.Entry(number), Token)));

        var outcomes = await Task.WhenAll(Enumerable.Range(0, count).SelectMany(number => new[]
        {
            _temporary.Store.AppendAsync(Correction(1000 + number, number), Token),
            other.Readings.AppendAsync(Correction(2000 + number, number), Token),
        }).ToList());

        Assert.Equal(count, outcomes.Count(outcome => outcome.Refusal is null));
        Assert.All(outcomes.Where(outcome => outcome.Refusal is not null), outcome => Assert.Equal(CorrectionFault.Superseded, outcome.Refusal!.Fault));
        Assert.Equal((long)count, _temporary.Scalar("SELECT count(*) FROM correction"));
        await AssertHoldsAsync(2 * count);
    }

    [Fact]
    public async Task Append_CorrectionOfAnotherLine_IsFoundFromBothLines_AndTakenOnce()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(5), Token);

        var outcome = await _temporary.Store.AppendAsync(Correction(2, 1) with { Line = "line 2" }, Token);
        var second = await _temporary.Store.AppendAsync(Correction(3, 1) with { Line = "line 3" }, Token);
        var ofCorrection = await _temporary.Store.AppendAsync(Correction(4, 2) with { Line = "line 3" }, Token);

        Assert.Equal((1L, "line 1"), (outcome.Reading.CorrectedSequence, outcome.Reading.CorrectedLine));
        Assert.Equal(new CorrectionRefusal(CorrectionFault.Superseded, TemporaryStore.Id(2)), second.Refusal);
        Assert.Null(ofCorrection.Refusal);
        Assert.Equal(TemporaryStore.Id(2), (await _temporary.Store.FindAsync(TemporaryStore.Id(1), Token))!.SupersededBy);
        var middle = await _temporary.Store.FindAsync(TemporaryStore.Id(2), Token);
        Assert.Equal((TemporaryStore.Id(1), "line 1", TemporaryStore.Id(4)), (middle!.Entry.Corrects, middle.CorrectedLine, middle.SupersededBy));
        Assert.Equal([6, 6, 6], await _temporary.Opened.Pictures.FindAsync("line 2", middle.Sequence, Token));
        Assert.Null(await _temporary.Opened.Pictures.FindAsync("line 1", middle.Sequence, Token));
        List<SeriesRow> rows = [];
        await _temporary.Opened.Series.ReadAsync(new SeriesQuery { Measurand = "haze" }, (in SeriesRow row) => rows.Add(row), Token);
        Assert.Equal([0.04, 0.05], rows.Select(row => row.Value));
        await AssertHoldsAsync(4);
    }

    [Fact]
    public async Task Append_CorrectionsOfManyLinesThroughTwoServersAtOnce_TakesOneOfEach()
    {
        const int count = 40;
        await using var other = await _temporary.OpenAnotherAsync();
        await Task.WhenAll(Enumerable.Range(0, count).Select(number => _temporary.Store.AppendAsync(TemporaryStore.Entry(number), Token)));

        var outcomes = await Task.WhenAll(Enumerable.Range(0, count).SelectMany(number => new[]
        {
            _temporary.Store.AppendAsync(Correction(1000 + number, number) with { Line = "line 2" }, Token),
            other.Readings.AppendAsync(Correction(2000 + number, number) with { Line = "line 3" }, Token),
        }).ToList());

        Assert.Equal(count, outcomes.Count(outcome => outcome.Refusal is null));
        Assert.Equal((long)count, _temporary.Scalar("SELECT count(*) FROM correction WHERE line = 'line 1'"));
        await AssertHoldsAsync(2 * count);
    }

    [Fact]
    public async Task Picture_ComesBackBitForBit()
    {
        var picture = new byte[300_000];
        new Random(5).NextBytes(picture);
        var outcome = await _temporary.Store.AppendAsync(TemporaryStore.Entry(1, entry => entry with { Picture = picture, PictureInfo = new byte[] { 1 } }), Token);
        var without = await _temporary.Store.AppendAsync(TemporaryStore.Entry(2), Token);

        await _temporary.ReopenAsync();

        Assert.Equal(picture, await _temporary.Opened.Pictures.FindAsync("line 1", outcome.Reading.Sequence, Token));
        Assert.Null(await _temporary.Opened.Pictures.FindAsync("line 1", without.Reading.Sequence, Token));
        Assert.True(outcome.Reading.Entry.Picture.IsEmpty);
        await AssertHoldsAsync(2);
    }

    [Fact]
    public async Task Picture_SlippedIn_IsFound()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);

        _temporary.Scalar("INSERT INTO picture (line, sequence, body) SELECT line, 1, method FROM reading");
        var report = await _temporary.Opened.Audit.VerifyAsync([], progress: null, Token);

        Assert.Equal(Records.Audit.ChainFault.PartWithoutRecord, report.Break!.Fault);
    }

    [Fact]
    public async Task Copy_KeepsCorrectionsAndPictures()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);
        await _temporary.Store.AppendAsync(Correction(2, 1), Token);
        await using var target = new Sqlite.TemporarySqliteStore();

        await StoreCopy.RunAsync(_temporary.Opened, target.Opened, Token);

        Assert.Equal(TemporaryStore.Id(2), (await target.Store.FindAsync(TemporaryStore.Id(1), Token))!.SupersededBy);
        Assert.Equal([6, 6, 6], await target.Opened.Pictures.FindAsync("line 1", 2, Token));
        Assert.Null((await target.Opened.Audit.VerifyAsync(await _temporary.Opened.Audit.HeadsAsync(Token), progress: null, Token)).Break);
    }

    internal static ReadingEntry Correction(int number, int corrected) => TemporaryStore.Entry(number, entry => entry with
    {
        Corrects = TemporaryStore.Id(corrected),
        CorrectionNote = new byte[] { 8, 9 },
        Origin = new byte[] { 7, (byte)number },
        PictureInfo = new byte[] { 3, 1 },
        Picture = new byte[] { 6, 6, 6 },
        Verdict = new byte[] { 5 },
    });

    private async Task AssertHoldsAsync(long readings)
    {
        var report = await _temporary.Opened.Audit.VerifyAsync([], progress: null, Token);
        Assert.Null(report.Break);
        Assert.Equal(readings, report.Readings);
    }
}

using ClearView.Records.Model;

namespace ClearView.Records.Tests.Behaviour;

/// <summary>Storing readings, alike in every engine.</summary>
public abstract class AppendBehaviour : IAsyncDisposable
{
    private readonly TemporaryStore _temporary;

    private protected AppendBehaviour(TemporaryStore temporary) => _temporary = temporary;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public async ValueTask DisposeAsync()
    {
        await _temporary.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    [Fact]
    public async Task Append_New_IsFoundAgainAfterReopening()
    {
        var entry = TemporaryStore.Entry(1);

        var outcome = await _temporary.Store.AppendAsync(entry, Token);
        var store = await _temporary.ReopenAsync();
        var found = await store.FindAsync(entry.Id, Token);

        Assert.False(outcome.AlreadyStored);
        Assert.Equal(TemporaryStore.Noon, outcome.Reading.RecordedAt);
        Assert.NotNull(found);
        AssertSame(entry, found.Entry);
        Assert.Equal(TemporaryStore.Noon, found.RecordedAt);
    }

    [Fact]
    public async Task Append_SameIdAgain_GivesTheFirstAndWritesNothing()
    {
        var first = TemporaryStore.Entry(1);
        var second = TemporaryStore.Entry(1, entry => entry with { Line = "line 2", Values = [] });
        await _temporary.Store.AppendAsync(first, Token);
        _temporary.Clock.Advance(TimeSpan.FromMinutes(1));

        var outcome = await _temporary.Store.AppendAsync(second, Token);

        Assert.True(outcome.AlreadyStored);
        AssertSame(first, outcome.Reading.Entry);
        Assert.Equal(TemporaryStore.Noon, outcome.Reading.RecordedAt);
        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM reading"));
        Assert.Equal(2L, _temporary.Scalar("SELECT count(*) FROM series_value"));
    }

    [Fact]
    public async Task Append_Payloads_ComeBackBitForBit()
    {
        // Every byte value, and the bits of NaNs with a payload, of -0 and of a subnormal number.
        byte[] payload =
        [
            .. Enumerable.Range(0, 256).Select(value => (byte)value),
            .. new[] { 0x7FF8_0000_DEAD_BEEF, 0x7FF0_0000_0000_0001, unchecked((long)0xFFF8_1234_5678_9ABC), long.MinValue, 1 }
                .SelectMany(BitConverter.GetBytes),
        ];
        var entry = TemporaryStore.Entry(1, value => value with { Measurement = payload, Method = Array.Empty<byte>(), Evaluation = payload.Reverse().ToArray() });

        await _temporary.Store.AppendAsync(entry, Token);
        var found = await (await _temporary.ReopenAsync()).FindAsync(entry.Id, Token);

        Assert.NotNull(found);
        AssertSame(entry, found.Entry);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public async Task Append_ValueNotFinite_IsRefused(double value)
    {
        var entry = TemporaryStore.Entry(1, entry => entry with { Values = [new MeasurandValue("haze", value)] });

        await Assert.ThrowsAsync<ArgumentException>(() => _temporary.Store.AppendAsync(entry, Token));
        Assert.Null(await _temporary.Store.FindAsync(entry.Id, Token));
    }

    [Fact]
    public async Task Append_TimeWithOffset_IsKeptAsUtcTo100Nanoseconds()
    {
        var measuredAt = new DateTimeOffset(2026, 3, 2, 14, 0, 0, TimeSpan.FromHours(2)).AddTicks(1_234_567);
        var entry = TemporaryStore.Entry(1, entry => entry with { MeasuredAt = measuredAt });

        await _temporary.Store.AppendAsync(entry, Token);
        var found = await _temporary.Store.FindAsync(entry.Id, Token);

        Assert.Equal(TimeSpan.Zero, found!.Entry.MeasuredAt.Offset);
        Assert.Equal(measuredAt.UtcTicks, found.Entry.MeasuredAt.Ticks);
    }

    [Fact]
    public async Task Append_OneReadingOfABatchThatTheSchemaRefuses_DoesNotHarmTheOthers()
    {
        var bad = TemporaryStore.Entry(0, entry => entry with { Line = null! });
        var others = Enumerable.Range(1, 200).Select(number => TemporaryStore.Entry(number)).ToList();

        var tasks = others.Take(100).Append(bad).Concat(others.Skip(100))
            .Select(entry => _temporary.Store.AppendAsync(entry, Token)).ToList();
        await Assert.ThrowsAsync<ArgumentException>(() => Task.WhenAll(tasks));

        Assert.Equal(1, tasks.Count(task => task.IsFaulted));
        Assert.Equal(200L, _temporary.Scalar("SELECT count(*) FROM reading"));
    }

    [Fact]
    public async Task Append_EightWritersWithOverlappingIds_StoresEachOnce()
    {
        const int writers = 8;
        const int readings = 300;
        var store = _temporary.Store;

        var outcomes = await Task.WhenAll(Enumerable.Range(0, writers).Select(writer => Task.Run(async () =>
        {
            var stored = 0;
            for (var i = 0; i < readings; i++)
            {
                // Half of the readings belong to this writer, half are posted by all writers.
                var number = i % 2 == 0 ? i : 10_000 * (writer + 1) + i;
                var outcome = await store.AppendAsync(TemporaryStore.Entry(number), Token);
                AssertSame(TemporaryStore.Entry(number), outcome.Reading.Entry);
                Assert.NotNull(await store.FindAsync(outcome.Reading.Entry.Id, Token));
                stored += outcome.AlreadyStored ? 0 : 1;
            }

            return stored;
        })));

        const int expected = readings / 2 + writers * (readings / 2);
        Assert.Equal(expected, outcomes.Sum());
        Assert.Equal((long)expected, _temporary.Scalar("SELECT count(*) FROM reading"));
        Assert.Equal(expected * 2L, _temporary.Scalar("SELECT count(*) FROM series_value"));
        _temporary.AssertIntact();
    }

    [Fact]
    public async Task Append_TheSameIdsThroughTwoServersAtOnce_StoresEachOnce()
    {
        const int count = 200;
        var first = _temporary.Store;
        await using var other = await _temporary.OpenAnotherAsync();

        // The servers meet the identifiers from opposite ends, and each tells of itself in the product.
        var outcomes = await Task.WhenAll(Enumerable.Range(0, count).SelectMany(i => new[]
        {
            first.AppendAsync(TemporaryStore.Entry(i, entry => entry with { Product = "first" }), Token),
            other.Readings.AppendAsync(TemporaryStore.Entry(count - 1 - i, entry => entry with { Product = "other" }), Token),
        }));

        Assert.Equal(count, outcomes.Count(outcome => !outcome.AlreadyStored));
        Assert.Equal((long)count, _temporary.Scalar("SELECT count(*) FROM reading"));
        Assert.Equal(count * 2L, _temporary.Scalar("SELECT count(*) FROM series_value"));
        foreach (var both in outcomes.GroupBy(outcome => outcome.Reading.Entry.Id))
        {
            var found = await first.FindAsync(both.Key, Token);
            Assert.All(both, outcome => Assert.Equal((found!.Entry.Product, found.Sequence), (outcome.Reading.Entry.Product, outcome.Reading.Sequence)));
            Assert.Single(both, outcome => !outcome.AlreadyStored);
        }

        _temporary.AssertIntact();
    }

    [Fact]
    public async Task Append_Together_NumbersReadingsInTheOrderOfPosting()
    {
        var order = Enumerable.Range(0, 300).ToArray();
        new Random(3).Shuffle(order);

        var outcomes = await Task.WhenAll(order.Select(number => _temporary.Store.AppendAsync(TemporaryStore.Entry(number), Token)).ToList());

        Assert.Equal(outcomes.Select(outcome => outcome.Reading.Sequence).Order(), outcomes.Select(outcome => outcome.Reading.Sequence));
    }

    [Fact]
    public async Task Append_ZeroWithASign_IsZeroInTheSeries()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1, entry => entry with { Values = [new MeasurandValue("b", -0.0)], AcrossMm = -0.0 }), Token);

        List<SeriesRow> rows = [];
        await _temporary.Opened.Series.ReadAsync(new SeriesQuery { Measurand = "b" }, (in SeriesRow row) => rows.Add(row), Token);

        var row = Assert.Single(rows);
        Assert.Equal((0L, 0L), (BitConverter.DoubleToInt64Bits(row.Value), BitConverter.DoubleToInt64Bits(row.AcrossMm)));
    }

    [Fact]
    public async Task Dispose_WithAppendsInFlight_FinishesThem()
    {
        var tasks = Enumerable.Range(0, 500).Select(number => _temporary.Store.AppendAsync(TemporaryStore.Entry(number), Token)).ToList();

        await _temporary.CloseAsync();

        // What was acknowledged or refused reaches its poster on a thread of its own.
        await ((Task)Task.WhenAll(tasks)).WaitAsync(Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing | ConfigureAwaitOptions.ContinueOnCapturedContext);
        Assert.All(tasks, task => Assert.True(task.IsCompletedSuccessfully || task.Exception?.InnerException is ObjectDisposedException));
        var acknowledged = tasks.Count(task => task.IsCompletedSuccessfully);
        Assert.True(acknowledged > 0);
        Assert.Equal((long)acknowledged, _temporary.Scalar("SELECT count(*) FROM reading"));
        _temporary.AssertClosed();
    }

    [Fact]
    public async Task Calls_AfterDisposal_Throw()
    {
        var store = _temporary.Store;
        var opened = _temporary.Opened;
        await opened.DisposeAsync();
        await opened.DisposeAsync();

        await Assert.ThrowsAsync<ObjectDisposedException>(() => store.AppendAsync(TemporaryStore.Entry(1), Token));
        await Assert.ThrowsAsync<ObjectDisposedException>(() => store.FindAsync(Guid.NewGuid(), Token));
        await Assert.ThrowsAsync<ObjectDisposedException>(() => store.CheckAsync(Token));
    }

    internal static void AssertSame(ReadingEntry expected, ReadingEntry actual)
    {
        Assert.Equal(expected.Measurement.ToArray(), actual.Measurement.ToArray());
        Assert.Equal(expected.Method.ToArray(), actual.Method.ToArray());
        Assert.Equal(expected.Evaluation.ToArray(), actual.Evaluation.ToArray());
        Assert.Equal(expected.Verdict.ToArray(), actual.Verdict.ToArray());
        Assert.Equal(expected.Origin.ToArray(), actual.Origin.ToArray());
        Assert.Equal(expected.CorrectionNote.ToArray(), actual.CorrectionNote.ToArray());
        Assert.Equal(expected.PictureInfo.ToArray(), actual.PictureInfo.ToArray());
        Assert.Empty(actual.Values);
        Assert.True(actual.Picture.IsEmpty);
        var same = actual with
        {
            Measurement = expected.Measurement,
            Method = expected.Method,
            Evaluation = expected.Evaluation,
            Values = expected.Values,
            Verdict = expected.Verdict,
            Origin = expected.Origin,
            CorrectionNote = expected.CorrectionNote,
            PictureInfo = expected.PictureInfo,
            Picture = expected.Picture,
        };
        Assert.Equal(expected, same);
    }
}

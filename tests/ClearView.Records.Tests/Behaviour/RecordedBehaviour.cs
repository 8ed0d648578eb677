using ClearView.Records.Model;

namespace ClearView.Records.Tests.Behaviour;

/// <summary>Following readings in the order of recording, and their signals, alike in every engine.</summary>
public abstract class RecordedBehaviour : IAsyncDisposable
{
    private readonly TemporaryStore _temporary;

    private protected RecordedBehaviour(TemporaryStore temporary) => _temporary = temporary;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private IRecordedStore Recorded => _temporary.Opened.Recorded;

    public async ValueTask DisposeAsync()
    {
        await _temporary.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    [Fact]
    public async Task List_Empty_GivesAnEmptyPageWhereItBegan()
    {
        var page = await Recorded.ListAsync(new RecordedQuery(), Token);

        Assert.Empty(page.Readings);
        Assert.Equal((0L, false), (page.Through, page.HasMore));
        Assert.Equal(0L, await Recorded.LastAsync(Token));
    }

    [Fact]
    public async Task List_PageByPage_GivesEachOnceInTheOrderOfRecording_WhateverTheirTimes()
    {
        for (var number = 0; number < 50; number++)
        {
            await Append(number, entry => entry with { MeasuredAt = TemporaryStore.Noon.AddDays(-number) });
        }

        List<StoredReading> seen = [];
        RecordedPage page;
        var query = new RecordedQuery { PageSize = 7 };
        do
        {
            page = await Recorded.ListAsync(query, Token);
            seen.AddRange(page.Readings);
            query = query with { After = page.Through };
        }
        while (page.HasMore);

        Assert.Equal(Enumerable.Range(0, 50).Select(TemporaryStore.Id), seen.Select(reading => reading.Entry.Id));
        Assert.Equal(seen[^1].Sequence, page.Through);
        Assert.Equal(seen[^1].Sequence, await Recorded.LastAsync(Token));
        AppendBehaviour.AssertSame(TemporaryStore.Entry(49, entry => entry with { MeasuredAt = TemporaryStore.Noon.AddDays(-49) }), seen[^1].Entry);
    }

    [Fact]
    public async Task List_Filters_MatchExactlyAndTogether_AndPassOverTheRest()
    {
        for (var number = 0; number < 32; number++)
        {
            await Append(number, entry => entry with
            {
                Line = "line " + number % 2,
                Product = "product " + number / 2 % 2,
                Lot = "lot " + number / 4 % 2,
                Roll = "roll " + number / 8 % 2,
            });
        }

        async Task<int> Count(RecordedQuery query)
        {
            var page = await Recorded.ListAsync(query, Token);
            Assert.Equal(await Recorded.LastAsync(Token), page.Through);
            return page.Readings.Length;
        }

        Assert.Equal(16, await Count(new RecordedQuery { Line = "line 1" }));
        Assert.Equal(16, await Count(new RecordedQuery { Product = "product 1" }));
        Assert.Equal(16, await Count(new RecordedQuery { Lot = "lot 1" }));
        Assert.Equal(16, await Count(new RecordedQuery { Roll = "roll 1" }));
        Assert.Equal(2, await Count(new RecordedQuery { Line = "line 1", Product = "product 0", Lot = "lot 1", Roll = "roll 0" }));
        Assert.Equal(0, await Count(new RecordedQuery { Line = "LINE 1" }));
    }

    [Fact]
    public async Task List_MaxPayloadBytes_EndsThePageEarlyButNeverEmpty()
    {
        for (var number = 0; number < 3; number++)
        {
            await Append(number, entry => entry with { Measurement = new byte[1000] });
        }

        var page = await Recorded.ListAsync(new RecordedQuery { MaxPayloadBytes = 1 }, Token);

        Assert.Equal(TemporaryStore.Id(0), Assert.Single(page.Readings).Entry.Id);
        Assert.Equal((page.Readings[0].Sequence, true), (page.Through, page.HasMore));
    }

    [Fact]
    public async Task List_AReadingThatAwaitsSignals_HoldsUpThoseBehindIt_UntilItIsSettled()
    {
        await Append(0);
        var awaiting = await Append(1, entry => entry with { AwaitsSignals = true });
        await Append(2);
        byte[] signals = [8, 1, 200];

        var before = await Listed(new RecordedQuery());
        var early = await Listed(new RecordedQuery { BeforeSignals = true });
        var told = Recorded.Changed;
        await Recorded.SettleAsync(awaiting, signals);
        await told.WaitAsync(Token);
        var after = await Listed(new RecordedQuery());

        Assert.Equal([TemporaryStore.Id(0)], before.Select(reading => reading.Entry.Id));
        Assert.Equal(Enumerable.Range(0, 3).Select(TemporaryStore.Id), early.Select(reading => reading.Entry.Id));
        Assert.Equal(Enumerable.Range(0, 3).Select(TemporaryStore.Id), after.Select(reading => reading.Entry.Id));
        Assert.Equal([[], signals, []], after.Select(reading => reading.Signals.ToArray()));
        Assert.False(after[1].Entry.AwaitsSignals);
    }

    [Fact]
    public async Task Settle_Signals_AreFoundWithTheReadingEverywhere_AlsoAfterReopening()
    {
        var reading = await Append(1, entry => entry with { AwaitsSignals = true });
        byte[] signals = [.. Enumerable.Range(0, 256).Select(i => (byte)i)];
        await Recorded.SettleAsync(reading, signals);
        var store = await _temporary.ReopenAsync();

        Assert.Equal(signals, (await store.FindAsync(TemporaryStore.Id(1), Token))!.Signals.ToArray());
        Assert.Equal(signals, Assert.Single((await store.ListAsync(new ReadingQuery(), Token)).Readings).Signals.ToArray());
        Assert.Equal(signals, Assert.Single(await Listed(new RecordedQuery())).Signals.ToArray());
        var again = await store.AppendAsync(TemporaryStore.Entry(1), Token);
        Assert.True(again.AlreadyStored);
        Assert.Equal(signals, again.Reading.Signals.ToArray());
    }

    [Fact]
    public async Task Settle_WithoutSignals_WritesNothing()
    {
        await _temporary.Store.CheckAsync(Token);
        var readings = await Task.WhenAll(Enumerable.Range(0, 20).Select(number => Append(number, entry => entry with { AwaitsSignals = true })));
        await Task.WhenAll(readings.Select(reading => Recorded.SettleAsync(reading, ReadOnlyMemory<byte>.Empty)));

        Assert.Equal(20, (await Listed(new RecordedQuery())).Count);
        Assert.Equal(0L, _temporary.Scalar("SELECT count(*) FROM reading_signal"));
    }

    [Fact]
    public async Task ListLeft_AServerThatEndedBeforeTheSignals_GivesItsReadingUntilItIsSettled()
    {
        var left = await Append(1, entry => entry with { AwaitsSignals = true });
        var settled = await Append(2, entry => entry with { AwaitsSignals = true });
        await Append(3);
        await Recorded.SettleAsync(settled, new byte[] { 1 });
        Assert.Empty(await Recorded.ListLeftAsync(Token));

        await _temporary.ReopenAsync();
        Assert.Equal([left.Sequence], await Recorded.ListLeftAsync(Token));
        await _temporary.ReopenAsync();
        Assert.Equal([left.Sequence], await Recorded.ListLeftAsync(Token));
        await Recorded.SettleAsync(left, new byte[] { 2 });
        await _temporary.ReopenAsync();

        Assert.Empty(await Recorded.ListLeftAsync(Token));
        Assert.Equal([[2], [1], []], (await Listed(new RecordedQuery())).Select(reading => reading.Signals.ToArray()));
    }

    [Fact]
    public async Task ListLeft_SettledWithoutSignals_GivesNothing()
    {
        var readings = await Task.WhenAll(Enumerable.Range(0, 20).Select(number => Append(number, entry => entry with { AwaitsSignals = number % 2 == 0 })));
        await Task.WhenAll(readings.Where((_, i) => i % 2 == 0).Select(reading => Recorded.SettleAsync(reading, ReadOnlyMemory<byte>.Empty)));
        await _temporary.ReopenAsync();

        Assert.Empty(await Recorded.ListLeftAsync(Token));
        Assert.Equal(0L, _temporary.Scalar("SELECT count(*) FROM awaited_signal"));
    }

    [Fact]
    public async Task Settle_Again_KeepsTheFirst()
    {
        var reading = await Append(1);
        await Recorded.SettleAsync(reading, new byte[] { 1 });
        await Recorded.SettleAsync(reading, new byte[] { 2 });

        Assert.Equal(new byte[] { 1 }, Assert.Single(await Listed(new RecordedQuery())).Signals.ToArray());
    }

    [Fact]
    public async Task List_AfterAServerThatEndedBeforeItsSignals_GivesTheReadingWithout()
    {
        await Append(1, entry => entry with { AwaitsSignals = true });
        Assert.Empty(await Listed(new RecordedQuery()));
        await _temporary.ReopenAsync();

        Assert.Empty(Assert.Single(await Listed(new RecordedQuery())).Signals.ToArray());
    }

    [Fact]
    public async Task Append_AwaitingBesideOneThatTheSchemaRefuses_HoldsNobodyUpForGood()
    {
        var bad = TemporaryStore.Entry(0, entry => entry with { Line = null!, AwaitsSignals = true });
        var tasks = Enumerable.Range(1, 40).Select(number => Append(number, entry => entry with { AwaitsSignals = number % 2 == 0 })).ToList();
        var refused = _temporary.Store.AppendAsync(bad, Token);
        tasks.AddRange(Enumerable.Range(41, 40).Select(number => Append(number, entry => entry with { AwaitsSignals = number % 2 == 0 })));

        await Assert.ThrowsAsync<ArgumentException>(() => refused);
        var readings = await Task.WhenAll(tasks);
        await Task.WhenAll(readings.Where((_, i) => i % 2 == 1).Select(reading => Recorded.SettleAsync(reading, new byte[] { 1 })));

        Assert.Equal(80, (await Listed(new RecordedQuery { PageSize = 1000 })).Count);
    }

    [Fact]
    public async Task Changed_CompletesWhenAReadingIsStored()
    {
        var told = Recorded.Changed;
        Assert.False(told.IsCompleted);
        await Append(1);
        await told.WaitAsync(Token);

        Assert.False(Recorded.Changed.IsCompleted);
    }

    [Fact]
    public async Task List_WhileReadingsComeInWithAndWithoutSignals_MeetsEachOnceAndWithItsSignals()
    {
        const int count = 400;
        await _temporary.Store.CheckAsync(Token);
        var posting = Task.WhenAll(Enumerable.Range(0, 8).Select(writer => Task.Run(
            async () =>
            {
                for (var number = writer; number < count; number += 8)
                {
                    var reading = await Append(number, entry => entry with { AwaitsSignals = true });
                    await Recorded.SettleAsync(reading, number % 3 == 0 ? new byte[] { 9, (byte)number } : ReadOnlyMemory<byte>.Empty);
                }
            },
            Token)));

        List<StoredReading> seen = [];
        var query = new RecordedQuery { PageSize = 5 };
        while (seen.Count < count)
        {
            var told = Recorded.Changed;
            var page = await Recorded.ListAsync(query, Token);
            seen.AddRange(page.Readings);
            query = query with { After = page.Through };
            if (!page.HasMore && seen.Count < count)
            {
                await Task.WhenAny(told, posting).WaitAsync(Token);
            }
        }

        await posting;
        Assert.Equal(seen.Select(reading => reading.Sequence).Order(), seen.Select(reading => reading.Sequence));
        Assert.Equal(Enumerable.Range(0, count).Select(TemporaryStore.Id), seen.Select(reading => reading.Entry.Id).OrderBy(id => id));
        Assert.All(seen, reading =>
        {
            var number = int.Parse(reading.Entry.Specimen.AsSpan(2), System.Globalization.CultureInfo.InvariantCulture);
            Assert.Equal(number % 3 == 0 ? [9, (byte)number] : [], reading.Signals.ToArray());
        });
    }

    [Fact]
    public async Task List_PageSizeOrBytesBelowOne_IsRefused()
    {
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() => Recorded.ListAsync(new RecordedQuery { PageSize = 0 }, Token));
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(() => Recorded.ListAsync(new RecordedQuery { MaxPayloadBytes = 0 }, Token));
    }

    private async Task<StoredReading> Append(int number, Func<ReadingEntry, ReadingEntry>? change = null) =>
        (await _temporary.Store.AppendAsync(TemporaryStore.Entry(number, change), Token)).Reading;

    private async Task<List<StoredReading>> Listed(RecordedQuery query) => [.. (await Recorded.ListAsync(query, Token)).Readings];
}

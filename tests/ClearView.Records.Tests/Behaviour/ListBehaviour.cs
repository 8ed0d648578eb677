using ClearView.Records.Model;

namespace ClearView.Records.Tests.Behaviour;

/// <summary>Listing readings, alike in every engine.</summary>
public abstract class ListBehaviour : IAsyncDisposable
{
    private readonly TemporaryStore _temporary;

    private protected ListBehaviour(TemporaryStore temporary) => _temporary = temporary;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public async ValueTask DisposeAsync()
    {
        await _temporary.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    [Fact]
    public async Task List_Empty_GivesAnEmptyPage()
    {
        var page = await _temporary.Store.ListAsync(new ReadingQuery(), Token);

        Assert.Empty(page.Readings);
        Assert.False(page.HasMore);
    }

    [Theory]
    [InlineData(ReadingOrder.OldestFirst)]
    [InlineData(ReadingOrder.NewestFirst)]
    public async Task List_PageByPage_GivesEachOnceInOrder_AlsoWithEqualTimes(ReadingOrder order)
    {
        // Ten readings share each time, so that pages of seven break within a time.
        foreach (var number in Shuffled(100, seed: 5))
        {
            await Append(number, entry => entry with { MeasuredAt = TemporaryStore.Noon.AddSeconds(number / 10) });
        }

        var pages = await Pages(new ReadingQuery { PageSize = 7, Order = order });

        var expected = Enumerable.Range(0, 100).Select(TemporaryStore.Id);
        Assert.Equal(order == ReadingOrder.OldestFirst ? expected : expected.Reverse(), pages.SelectMany(page => page).Select(entry => entry.Id));
        Assert.Equal(15, pages.Count);
    }

    [Fact]
    public async Task List_WhileReadingsAreAdded_NeitherRepeatsNorSkips()
    {
        for (var number = 0; number < 60; number += 2)
        {
            await Append(number);
        }

        List<Guid> seen = [];
        ReadingPosition? after = null;
        var added = 1;
        do
        {
            var page = await _temporary.Store.ListAsync(new ReadingQuery { PageSize = 4, After = after }, Token);
            seen.AddRange(page.Readings.Select(reading => reading.Entry.Id));
            after = page.HasMore ? PositionOf(page.Readings[^1].Entry) : null;

            // One before and one behind the place, every time.
            await Append(added, entry => entry with { MeasuredAt = TemporaryStore.Noon.AddHours(-1) });
            await Append(added + 1000);
            added += 2;
        }
        while (after is not null && added < 200);

        Assert.Equal(seen.Count, seen.Distinct().Count());
        Assert.Empty(Enumerable.Range(0, 30).Select(i => TemporaryStore.Id(2 * i)).Except(seen));
    }

    [Fact]
    public async Task List_Filters_MatchExactlyAndTogether()
    {
        for (var number = 0; number < 64; number++)
        {
            await Append(number, entry => entry with
            {
                Line = "line " + number % 2,
                Product = "product " + number / 2 % 2,
                Lot = "lot " + number / 4 % 2,
                Roll = "roll " + number / 8 % 2,
                Specimen = "specimen " + number / 16 % 2,
            });
        }

        Assert.Equal(32, await Count(new ReadingQuery { Line = "line 1" }));
        Assert.Equal(32, await Count(new ReadingQuery { Product = "product 1" }));
        Assert.Equal(32, await Count(new ReadingQuery { Lot = "lot 1" }));
        Assert.Equal(32, await Count(new ReadingQuery { Roll = "roll 1" }));
        Assert.Equal(32, await Count(new ReadingQuery { Specimen = "specimen 1" }));
        Assert.Equal(0, await Count(new ReadingQuery { Line = "LINE 1" }));
        Assert.Equal(0, await Count(new ReadingQuery { Line = "line _" }));
        Assert.Equal(
            2,
            await Count(new ReadingQuery { Line = "line 1", Product = "product 0", Lot = "lot 1", Roll = "roll 0", Specimen = "specimen 1" }));
    }

    [Fact]
    public async Task List_TimeRange_IncludesItsStartAndNotItsEnd()
    {
        for (var number = 0; number < 5; number++)
        {
            await Append(number, entry => entry with { MeasuredAt = TemporaryStore.Noon.AddTicks(number) });
        }

        var page = await _temporary.Store.ListAsync(
            new ReadingQuery { MeasuredFrom = TemporaryStore.Noon.AddTicks(1), MeasuredBefore = TemporaryStore.Noon.AddTicks(3) }, Token);

        Assert.Equal([TemporaryStore.Id(1), TemporaryStore.Id(2)], page.Readings.Select(reading => reading.Entry.Id));
    }

    [Fact]
    public async Task List_MaxPayloadBytes_EndsThePageEarlyButNeverEmpty()
    {
        for (var number = 0; number < 5; number++)
        {
            await Append(number, entry => entry with { Measurement = new byte[1000] });
        }

        Assert.Equal([1, 1, 1, 1, 1], (await Pages(new ReadingQuery { MaxPayloadBytes = 1 })).Select(page => page.Count));
        Assert.Equal([3, 2], (await Pages(new ReadingQuery { MaxPayloadBytes = 2500 })).Select(page => page.Count));
    }

    [Theory]
    [InlineData(ReadingOrder.OldestFirst)]
    [InlineData(ReadingOrder.NewestFirst)]
    public async Task List_AcrossMonthsAndCenturies_IsInTheOrderOfTimeThenOfTheIdentifiersText(ReadingOrder order)
    {
        DateTimeOffset[] times = [DateTimeOffset.MinValue, TemporaryStore.Noon, TemporaryStore.Noon.AddMonths(1), TemporaryStore.Noon.AddYears(1), DateTimeOffset.MaxValue];
        var random = new Random(11);
        var bytes = new byte[16];
        List<(DateTimeOffset Time, Guid Id)> expected = [];
        for (var number = 0; number < 60; number++)
        {
            random.NextBytes(bytes);
            expected.Add((times[number % times.Length], new Guid(bytes)));
            await Append(number, entry => entry with { Id = expected[^1].Id, MeasuredAt = expected[^1].Time });
        }

        var listed = (await Pages(new ReadingQuery { PageSize = 7, Order = order })).SelectMany(page => page).Select(entry => (entry.MeasuredAt, entry.Id));

        var sorted = expected.OrderBy(item => item.Time).ThenBy(item => item.Id.ToString(), StringComparer.Ordinal);
        Assert.Equal(order == ReadingOrder.OldestFirst ? sorted : sorted.Reverse(), listed);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    public async Task List_PageSizeBelowOne_IsRefused(int pageSize) =>
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(
            () => _temporary.Store.ListAsync(new ReadingQuery { PageSize = pageSize }, Token));

    private static IEnumerable<int> Shuffled(int count, int seed)
    {
        var numbers = Enumerable.Range(0, count).ToArray();
        new Random(seed).Shuffle(numbers);
        return numbers;
    }

    private static ReadingPosition PositionOf(ReadingEntry entry) => new(entry.MeasuredAt, entry.Id);

    private Task Append(int number, Func<ReadingEntry, ReadingEntry>? change = null) =>
        _temporary.Store.AppendAsync(TemporaryStore.Entry(number, change), Token);

    private async Task<int> Count(ReadingQuery query) => (await _temporary.Store.ListAsync(query, Token)).Readings.Length;

    private async Task<List<List<ReadingEntry>>> Pages(ReadingQuery query)
    {
        List<List<ReadingEntry>> pages = [];
        while (true)
        {
            var page = await _temporary.Store.ListAsync(query, Token);
            pages.Add([.. page.Readings.Select(reading => reading.Entry)]);
            if (!page.HasMore)
            {
                return pages;
            }

            query = query with { After = PositionOf(page.Readings[^1].Entry) };
        }
    }
}

using ClearView.Records.Model;
using ClearView.Records.Sqlite;

namespace ClearView.Records.Tests.Sqlite;

public sealed class ListTests : IAsyncDisposable
{
    private readonly TemporaryStore _temporary = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

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
    [InlineData(0)]
    [InlineData(-1)]
    public async Task List_PageSizeBelowOne_IsRefused(int pageSize) =>
        await Assert.ThrowsAsync<ArgumentOutOfRangeException>(
            () => _temporary.Store.ListAsync(new ReadingQuery { PageSize = pageSize }, Token));

    [Fact]
    public async Task List_EveryFilter_HasAnIndexThatYieldsTheOrder()
    {
        await Append(1);
        using var connection = _temporary.Connect();
        var after = new ReadingPosition(TemporaryStore.Noon, TemporaryStore.Id(0));
        (ReadingQuery Query, string Index)[] cases =
        [
            (new ReadingQuery(), "reading_by_time"),
            (new ReadingQuery { After = after, MeasuredFrom = TemporaryStore.Noon }, "reading_by_time"),
            (new ReadingQuery { Line = "a", After = after }, "reading_by_line"),
            (new ReadingQuery { Product = "a", Order = ReadingOrder.NewestFirst, After = after }, "reading_by_product"),
            (new ReadingQuery { Lot = "a", MeasuredBefore = TemporaryStore.Noon }, "reading_by_lot"),
            (new ReadingQuery { Roll = "a" }, "reading_by_roll"),
            (new ReadingQuery { Specimen = "a" }, "reading_by_specimen"),
        ];

        Assert.All(cases, item =>
        {
            using var command = ReadingRows.ListCommand(connection, item.Query);
            command.CommandText = "EXPLAIN QUERY PLAN " + command.CommandText;
            using var rows = command.ExecuteReader();
            List<string> plan = [];
            while (rows.Read())
            {
                plan.Add(rows.GetString(3));
            }

            Assert.Contains("INDEX " + item.Index + (item.Query == new ReadingQuery() ? "" : " ("), Assert.Single(plan), StringComparison.Ordinal);
        });
    }

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

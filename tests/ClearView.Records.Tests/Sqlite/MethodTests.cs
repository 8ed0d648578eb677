using ClearView.Records.Model;
using ClearView.Records.Sqlite;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Tests.Sqlite;

public sealed class MethodTests : IAsyncDisposable
{
    private readonly TemporaryStore _temporary = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Fact]
    public async Task Store_New_IsVersion1AndFoundAfterReopening()
    {
        var entry = Entry("film-25", 7);

        var outcome = await _temporary.Methods.StoreAsync(entry, Token);
        await _temporary.ReopenAsync();

        Assert.False(outcome.AlreadyStored);
        Assert.Equal(1, outcome.Method.Version);
        var found = await _temporary.Methods.FindAsync("film-25", version: null, Token);
        AssertSame(outcome.Method, found);
        Assert.Equal(TemporaryStore.Noon, found!.StoredAt);
        Assert.Equal("M. Arden", found.Entry.StoredBy);
    }

    [Fact]
    public async Task Store_Changed_IsTheNextVersionAndLeavesTheEarlierOne()
    {
        var first = await _temporary.Methods.StoreAsync(Entry("film-25", 1), Token);
        var second = await _temporary.Methods.StoreAsync(Entry("film-25", 2), Token);
        var third = await _temporary.Methods.StoreAsync(Entry("film-25", 2) with { Description = "another" }, Token);

        Assert.Equal([1L, 2, 3], new[] { first, second, third }.Select(outcome => outcome.Method.Version));
        AssertSame(first.Method, await _temporary.Methods.FindAsync("film-25", 1, Token));
        AssertSame(second.Method, await _temporary.Methods.FindAsync("film-25", 2, Token));
        AssertSame(third.Method, await _temporary.Methods.FindAsync("film-25", null, Token));
        Assert.Null(await _temporary.Methods.FindAsync("film-25", 4, Token));
        Assert.Null(await _temporary.Methods.FindAsync("film-25", 0, Token));
    }

    [Fact]
    public async Task Store_WhatTheNewestHolds_ChangesNothingWhoeverStoresIt()
    {
        var first = await _temporary.Methods.StoreAsync(Entry("film-25", 1), Token);

        var again = await _temporary.Methods.StoreAsync(Entry("film-25", 1) with { StoredBy = "another" }, Token);

        Assert.True(again.AlreadyStored);
        AssertSame(first.Method, again.Method);
        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM method"));
    }

    [Fact]
    public async Task Store_WhatAnEarlierVersionHeld_IsANewVersion()
    {
        await _temporary.Methods.StoreAsync(Entry("film-25", 1), Token);
        await _temporary.Methods.StoreAsync(Entry("film-25", 2), Token);

        var back = await _temporary.Methods.StoreAsync(Entry("film-25", 1), Token);

        Assert.False(back.AlreadyStored);
        Assert.Equal(3, back.Method.Version);
    }

    [Fact]
    public async Task Store_ManyAtOnceThroughTwoServers_GivesEachAVersionOfItsOwn()
    {
        const int count = 40;
        _ = _temporary.Methods;
        await using var other = SqliteStore.Open(_temporary.File, _temporary.Clock);

        var outcomes = await Task.WhenAll(Enumerable.Range(0, count).Select(i =>
            (i % 2 == 0 ? _temporary.Methods : other.Methods).StoreAsync(Entry("film-25", (byte)i), Token)));

        Assert.Equal(
            Enumerable.Range(1, count).Select(i => (long)i), outcomes.Select(outcome => outcome.Method.Version).Order());
        foreach (var outcome in outcomes)
        {
            AssertSame(outcome.Method, await _temporary.Methods.FindAsync("film-25", outcome.Method.Version, Token));
        }
    }

    [Fact]
    public async Task Store_TheSameManyTimesAtOnce_IsStoredOnce()
    {
        var outcomes = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => _temporary.Methods.StoreAsync(Entry("film-25", 1), Token)));

        Assert.Single(outcomes, outcome => !outcome.AlreadyStored);
        Assert.All(outcomes, outcome => Assert.Equal(1, outcome.Method.Version));
    }

    [Fact]
    public async Task Store_BufferChangedAfterwards_KeepsWhatWasHandedIn()
    {
        byte[] buffer = [1, 2, 3];
        var storing = _temporary.Methods.StoreAsync(Entry("film-25", 0) with { Method = buffer }, Token);
        buffer[0] = 99;
        await storing;

        Assert.Equal([1, 2, 3], (await _temporary.Methods.FindAsync("film-25", null, Token))!.Entry.Method.ToArray());
    }

    [Fact]
    public async Task Store_EmptyName_IsRefused() =>
        await Assert.ThrowsAsync<ArgumentException>(() => _temporary.Methods.StoreAsync(Entry("", 1), Token));

    [Theory]
    [InlineData(false, "a 2", "b 1", "c 3")]
    [InlineData(true, "a 1", "a 2", "b 1", "c 1", "c 2", "c 3")]
    public async Task List_PageByPage_IsByNameAndVersion(bool allVersions, params string[] expected)
    {
        foreach (var (name, versions) in new[] { ("c", 3), ("a", 2), ("b", 1) })
        {
            for (byte version = 1; version <= versions; version++)
            {
                await _temporary.Methods.StoreAsync(Entry(name, version), Token);
            }
        }

        for (var pageSize = 1; pageSize <= 7; pageSize++)
        {
            List<string> listed = [];
            var query = new MethodQuery { AllVersions = allVersions, PageSize = pageSize };
            while (true)
            {
                var page = await _temporary.Methods.ListAsync(query, Token);
                listed.AddRange(page.Methods.Select(method => $"{method.Entry.Name} {method.Version}"));
                if (!page.HasMore)
                {
                    break;
                }

                Assert.Equal(pageSize, page.Methods.Length);
                query = query with { After = new MethodPosition(page.Methods[^1].Entry.Name, page.Methods[^1].Version) };
            }

            Assert.Equal(expected, listed);
        }
    }

    [Fact]
    public async Task List_ByteLimit_EndsThePageButShowsOneAtLeast()
    {
        await _temporary.Methods.StoreAsync(Entry("a", 1) with { Method = new byte[10] }, Token);
        await _temporary.Methods.StoreAsync(Entry("b", 1) with { Method = new byte[10] }, Token);

        var ended = await _temporary.Methods.ListAsync(new MethodQuery { MaxPayloadBytes = 10 }, Token);
        var whole = await _temporary.Methods.ListAsync(new MethodQuery { MaxPayloadBytes = 11 }, Token);

        Assert.True(ended.HasMore);
        Assert.Single(ended.Methods);
        Assert.False(whole.HasMore);
        Assert.Equal(2, whole.Methods.Length);
    }

    [Theory]
    [InlineData("UPDATE method SET description = 'other'", "UPDATE refused")]
    [InlineData("UPDATE OR IGNORE method SET version = 2", "UPDATE refused")]
    [InlineData("DELETE FROM method", "DELETE refused")]
    [InlineData("INSERT OR REPLACE INTO method SELECT name, version, 0, '', '', x'' FROM method", "refused")]
    [InlineData("INSERT INTO method SELECT name, 3, 0, '', '', x'' FROM method", "version out of turn refused")]
    [InlineData("INSERT INTO method SELECT name, 0, 0, '', '', x'' FROM method", "version out of turn refused")]
    public async Task Change_ByAnySqlClient_IsRefused(string sql, string refusal)
    {
        var stored = await _temporary.Methods.StoreAsync(Entry("film-25", 1), Token);

        var error = Assert.Throws<SqliteException>(() => _temporary.Scalar(sql));

        Assert.Contains(refusal, error.Message, StringComparison.Ordinal);
        AssertSame(stored.Method, await _temporary.Methods.FindAsync("film-25", null, Token));
        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM method"));
    }

    [Fact]
    public async Task Open_StoreOfReadingsOnly_TakesMethodsAndKeepsItsReadings()
    {
        var older = await _temporary.ReopenAsync([Migration.All[0]]);
        var entry = TemporaryStore.Entry(1);
        await older.AppendAsync(entry, Token);

        var store = await _temporary.ReopenAsync();
        await _temporary.Methods.StoreAsync(Entry("film-25", 1), Token);

        AppendTests.AssertSame(entry, (await store.FindAsync(entry.Id, Token))!.Entry);
        Assert.NotNull(await _temporary.Methods.FindAsync("film-25", 1, Token));
    }

    [Fact]
    public async Task Calls_AfterDisposal_AreRefused()
    {
        var methods = _temporary.Methods;
        await _temporary.CloseAsync();

        await Assert.ThrowsAsync<ObjectDisposedException>(() => methods.StoreAsync(Entry("film-25", 1), Token));
        await Assert.ThrowsAsync<ObjectDisposedException>(() => methods.FindAsync("film-25", null, Token));
    }

    private static MethodEntry Entry(string name, byte content) => new()
    {
        Name = name,
        Description = "film on line 3",
        Method = new byte[] { 1, 2, content },
        StoredBy = "M. Arden",
    };

    private static void AssertSame(StoredMethod expected, StoredMethod? actual)
    {
        Assert.NotNull(actual);
        Assert.True(expected.Entry.SaysTheSameAs(actual.Entry));
        Assert.Equal(expected.Entry.StoredBy, actual.Entry.StoredBy);
        Assert.Equal((expected.Version, expected.StoredAt), (actual.Version, actual.StoredAt));
    }
}

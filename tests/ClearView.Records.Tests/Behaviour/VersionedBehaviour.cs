using ClearView.Records.Model;

namespace ClearView.Records.Tests.Behaviour;

/// <summary>Documents under names, alike in every engine.</summary>
public abstract class VersionedBehaviour : IAsyncDisposable
{
    private readonly TemporaryStore _temporary;

    private protected VersionedBehaviour(TemporaryStore temporary) => _temporary = temporary;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public async ValueTask DisposeAsync()
    {
        await _temporary.DisposeAsync();
        GC.SuppressFinalize(this);
    }

    [Fact]
    public async Task Store_New_IsVersion1AndFoundAfterReopening()
    {
        var entry = Entry("film-25", 7);

        var outcome = await _temporary.Methods.StoreAsync(entry, Token);
        await _temporary.ReopenAsync();

        Assert.False(outcome.AlreadyStored);
        Assert.Equal(1, outcome.Version.Version);
        var found = await _temporary.Methods.FindAsync("film-25", version: null, Token);
        AssertSame(outcome.Version, found);
        Assert.Equal(TemporaryStore.Noon, found!.StoredAt);
        Assert.Equal("M. Arden", found.Entry.StoredBy);
    }

    [Fact]
    public async Task Store_Changed_IsTheNextVersionAndLeavesTheEarlierOne()
    {
        var first = await _temporary.Methods.StoreAsync(Entry("film-25", 1), Token);
        var second = await _temporary.Methods.StoreAsync(Entry("film-25", 2), Token);
        var third = await _temporary.Methods.StoreAsync(Entry("film-25", 2) with { Description = "another" }, Token);

        Assert.Equal([1L, 2, 3], new[] { first, second, third }.Select(outcome => outcome.Version.Version));
        AssertSame(first.Version, await _temporary.Methods.FindAsync("film-25", 1, Token));
        AssertSame(second.Version, await _temporary.Methods.FindAsync("film-25", 2, Token));
        AssertSame(third.Version, await _temporary.Methods.FindAsync("film-25", null, Token));
        Assert.Null(await _temporary.Methods.FindAsync("film-25", 4, Token));
        Assert.Null(await _temporary.Methods.FindAsync("film-25", 0, Token));
    }

    [Fact]
    public async Task Store_WhatTheNewestHolds_ChangesNothingWhoeverStoresIt()
    {
        var first = await _temporary.Methods.StoreAsync(Entry("film-25", 1), Token);

        var again = await _temporary.Methods.StoreAsync(Entry("film-25", 1) with { StoredBy = "another" }, Token);

        Assert.True(again.AlreadyStored);
        AssertSame(first.Version, again.Version);
        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM versioned"));
    }

    [Fact]
    public async Task Store_WhatAnEarlierVersionHeld_IsANewVersion()
    {
        await _temporary.Methods.StoreAsync(Entry("film-25", 1), Token);
        await _temporary.Methods.StoreAsync(Entry("film-25", 2), Token);

        var back = await _temporary.Methods.StoreAsync(Entry("film-25", 1), Token);

        Assert.False(back.AlreadyStored);
        Assert.Equal(3, back.Version.Version);
    }

    [Fact]
    public async Task Store_ManyAtOnceThroughTwoServers_GivesEachAVersionOfItsOwn()
    {
        const int count = 40;
        _ = _temporary.Methods;
        await using var other = await _temporary.OpenAnotherAsync();

        var outcomes = await Task.WhenAll(Enumerable.Range(0, count).Select(i =>
            (i % 2 == 0 ? _temporary.Methods : other.Documents(VersionedKind.Method)).StoreAsync(Entry("film-25", (byte)i), Token)));

        Assert.Equal(
            Enumerable.Range(1, count).Select(i => (long)i), outcomes.Select(outcome => outcome.Version.Version).Order());
        foreach (var outcome in outcomes)
        {
            AssertSame(outcome.Version, await _temporary.Methods.FindAsync("film-25", outcome.Version.Version, Token));
        }
    }

    [Fact]
    public async Task Store_TheSameManyTimesAtOnce_IsStoredOnce()
    {
        var outcomes = await Task.WhenAll(Enumerable.Range(0, 20).Select(_ => _temporary.Methods.StoreAsync(Entry("film-25", 1), Token)));

        Assert.Single(outcomes, outcome => !outcome.AlreadyStored);
        Assert.All(outcomes, outcome => Assert.Equal(1, outcome.Version.Version));
    }

    [Fact]
    public async Task Store_BufferChangedAfterwards_KeepsWhatWasHandedIn()
    {
        byte[] buffer = [1, 2, 3];
        var storing = _temporary.Methods.StoreAsync(Entry("film-25", 0) with { Body = buffer }, Token);
        buffer[0] = 99;
        await storing;

        Assert.Equal([1, 2, 3], (await _temporary.Methods.FindAsync("film-25", null, Token))!.Entry.Body.ToArray());
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
            var query = new VersionQuery { AllVersions = allVersions, PageSize = pageSize };
            while (true)
            {
                var page = await _temporary.Methods.ListAsync(query, Token);
                listed.AddRange(page.Versions.Select(method => $"{method.Entry.Name} {method.Version}"));
                if (!page.HasMore)
                {
                    break;
                }

                Assert.Equal(pageSize, page.Versions.Length);
                query = query with { After = new VersionPosition(page.Versions[^1].Entry.Name, page.Versions[^1].Version) };
            }

            Assert.Equal(expected, listed);
        }
    }

    [Fact]
    public async Task List_Names_SortByTheirBytes()
    {
        string[] names = ["b", "B", "ä", "a-1", "a 1", "_", "Z", "\U0001F4C8", "\uFB01"];
        foreach (var name in names)
        {
            await _temporary.Methods.StoreAsync(Entry(name, 1), Token);
        }

        var page = await _temporary.Methods.ListAsync(new VersionQuery(), Token);

        Assert.Equal(names.OrderBy(name => Convert.ToHexString(System.Text.Encoding.UTF8.GetBytes(name)), StringComparer.Ordinal), page.Versions.Select(version => version.Entry.Name));
    }

    [Fact]
    public async Task List_ByteLimit_EndsThePageButShowsOneAtLeast()
    {
        await _temporary.Methods.StoreAsync(Entry("a", 1) with { Body = new byte[10] }, Token);
        await _temporary.Methods.StoreAsync(Entry("b", 1) with { Body = new byte[10] }, Token);

        var ended = await _temporary.Methods.ListAsync(new VersionQuery { MaxPayloadBytes = 10 }, Token);
        var whole = await _temporary.Methods.ListAsync(new VersionQuery { MaxPayloadBytes = 11 }, Token);

        Assert.True(ended.HasMore);
        Assert.Single(ended.Versions);
        Assert.False(whole.HasMore);
        Assert.Equal(2, whole.Versions.Length);
    }

    [Fact]
    public async Task Store_OfOneKind_IsNotSeenByTheOthers()
    {
        await _temporary.Methods.StoreAsync(Entry("film-25", 1), Token);

        Assert.Null(await _temporary.Opened.Documents(VersionedKind.Specification).FindAsync("film-25", null, Token));
        Assert.Empty((await _temporary.Opened.Documents(VersionedKind.Reference).ListAsync(new VersionQuery(), Token)).Versions);
        Assert.Equal(1, (await _temporary.Opened.Documents(VersionedKind.ControlChart).StoreAsync(Entry("film-25", 2), Token)).Version.Version);
        Assert.Equal(1, (await _temporary.Opened.Documents(VersionedKind.Key).StoreAsync(Entry("film-25", 3), Token)).Version.Version);
        Assert.Equal(1, (await _temporary.Methods.FindAsync("film-25", null, Token))!.Entry.Body.Span[2]);
    }

    [Fact]
    public async Task Calls_AfterDisposal_AreRefused()
    {
        var methods = _temporary.Methods;
        await _temporary.CloseAsync();

        await Assert.ThrowsAsync<ObjectDisposedException>(() => methods.StoreAsync(Entry("film-25", 1), Token));
        await Assert.ThrowsAsync<ObjectDisposedException>(() => methods.FindAsync("film-25", null, Token));
    }

    internal static VersionedEntry Entry(string name, byte content) => new()
    {
        Name = name,
        Description = "film on line 3",
        Body = new byte[] { 1, 2, content },
        StoredBy = "M. Arden",
    };

    internal static void AssertSame(StoredVersion expected, StoredVersion? actual)
    {
        Assert.NotNull(actual);
        Assert.True(expected.Entry.SaysTheSameAs(actual.Entry));
        Assert.Equal(expected.Entry.StoredBy, actual.Entry.StoredBy);
        Assert.Equal((expected.Version, expected.StoredAt), (actual.Version, actual.StoredAt));
    }
}

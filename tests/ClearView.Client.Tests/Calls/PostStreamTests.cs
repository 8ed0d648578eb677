using ClearView.V1;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

public class PostStreamTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(1000)]
    public async Task PostManyAsync_AnyNumber_AnswersEachInOrder(int count)
    {
        await using var server = await FakeServer.StartAsync();
        await using var client = server.Connect();
        var posts = Posts(count);

        var answers = await client.PostManyAsync(posts.ToAsyncEnumerable(), cancellationToken: Token).ToListAsync(Token);

        Assert.Equal(posts.Select(post => post.ReadingId), answers.Select(answer => answer.ReadingId));
        Assert.All(answers, answer => Assert.False(answer.Acknowledgement.AlreadyStored));
    }

    [Theory]
    [InlineData(0, 2)]
    [InlineData(1, 3)]
    [InlineData(100, 5)]
    public async Task PostManyAsync_StreamBreaks_RepeatsWhatWasNotAnsweredInItsOrder(int answersBeforeBreak, int breaks)
    {
        var readings = new FakeReadings { StreamsToBreak = breaks, AnswersBeforeBreak = answersBeforeBreak };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = server.Connect();
        var posts = Posts(700);

        var answers = await client.PostManyAsync(posts.ToAsyncEnumerable(), cancellationToken: Token).ToListAsync(Token);

        Assert.Equal(posts.Select(post => post.ReadingId), answers.Select(answer => answer.ReadingId));
        Assert.Equal(posts.Select(post => post.ReadingId), readings.PostedIds.Distinct());
        Assert.Equal(breaks + 1, readings.Streams);
    }

    [Fact]
    public async Task PostManyAsync_RefusedReading_IsAnsweredAndTheStreamGoesOn()
    {
        var posts = Posts(3);
        var readings = new FakeReadings { RefusedIds = { posts[1].ReadingId } };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = server.Connect();

        var answers = await client.PostManyAsync(posts.ToAsyncEnumerable(), cancellationToken: Token).ToListAsync(Token);

        Assert.Equal([false, true, false], answers.Select(answer => answer.Refusal is not null));
        Assert.Equal(1, readings.Streams);
    }

    [Fact]
    public async Task PostManyAsync_ServerStaysAway_SaysSoAfterTheAttempts()
    {
        var readings = new FakeReadings { StreamsToBreak = int.MaxValue };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = server.Connect(maxAttempts: 3);

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(
            async () => await client.PostManyAsync(Posts(10).ToAsyncEnumerable(), cancellationToken: Token).ToListAsync(Token));

        Assert.Equal(StatusCode.Unavailable, fault.Status);
        Assert.Equal(3, readings.Streams);
    }

    /// <summary>Posts of one line.</summary>
    internal static PostReadingRequest[] Posts(int count) =>
    [
        .. Enumerable.Range(0, count).Select(number => new PostReadingRequest
        {
            ReadingId = Guid.CreateVersion7().ToString(),
            Measurement = new Measurement { Identification = new Identification { Line = "3", Specimen = FormattableString.Invariant($"S-{number}") } },
        }),
    ];
}

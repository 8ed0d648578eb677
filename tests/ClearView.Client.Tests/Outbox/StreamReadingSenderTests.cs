using ClearView.Client.Outbox;
using ClearView.Client.Tests.Calls;

using Grpc.Core;

namespace ClearView.Client.Tests.Outbox;

/// <summary>Results come in the order of the readings, and none behind the first that has to be tried again.</summary>
public sealed class StreamReadingSenderTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task SendAsync_StoredAndRefused_TellsEach()
    {
        var posts = PostStreamTests.Posts(4);
        var readings = new FakeReadings { RefusedIds = { posts[1].ReadingId }, PostedIds = { posts[2].ReadingId } };

        var results = await SendAsync(readings, posts);

        Assert.Equal(
            [OutboxEventKind.Stored, OutboxEventKind.Refused, OutboxEventKind.AlreadyStored, OutboxEventKind.Stored],
            results.Select(result => result.Kind));
        Assert.Equal(
            $"the server refused the request: 1 field is at fault{Environment.NewLine}  measurement.conditions.aperture_mm: was 0; expected above 0.",
            results[1].Message);
        Assert.NotNull(results[0].Acknowledgement);
    }

    [Fact]
    public async Task SendAsync_ServerGoesAway_EndsWithTheFirstThatWaits()
    {
        var posts = PostStreamTests.Posts(10);

        var results = await SendAsync(new FakeReadings { StreamsToBreak = 1, AnswersBeforeBreak = 4 }, posts, maxAttempts: 1);

        Assert.Equal(Enumerable.Repeat(OutboxEventKind.Stored, 4).Append(OutboxEventKind.Waiting), results.Select(result => result.Kind));
        Assert.NotEmpty(results[^1].Message);
    }

    [Fact]
    public async Task SendAsync_ReadingLargerThanTheStreamTakes_IsRefusedAndTheOthersAreSent()
    {
        var posts = PostStreamTests.Posts(5);
        var readings = new FakeReadings
        {
            StreamsToBreak = 1,
            AnswersBeforeBreak = 2,
            // As gRPC for .NET says it.
            BreakStatus = new Status(StatusCode.ResourceExhausted, "Received message exceeds the maximum configured message size."),
        };

        var results = await SendAsync(readings, posts);

        Assert.Equal(
            [OutboxEventKind.Stored, OutboxEventKind.Stored, OutboxEventKind.Refused, OutboxEventKind.Stored, OutboxEventKind.Stored],
            results.Select(result => result.Kind));
    }

    [Theory]
    [InlineData(StatusCode.ResourceExhausted)]
    [InlineData(StatusCode.Unauthenticated)]
    [InlineData(StatusCode.PermissionDenied)]
    [InlineData(StatusCode.Internal)]
    [InlineData(StatusCode.Unimplemented)]
    public async Task SendAsync_FaultThatSomebodyMends_Waits(StatusCode code)
    {
        var results = await SendAsync(new FakeReadings { StreamsToBreak = 9, BreakStatus = new Status(code, "not now") }, PostStreamTests.Posts(3));

        Assert.Equal([OutboxEventKind.Waiting], results.Select(result => result.Kind));
    }

    // A key that is not for the line: somebody mends it, and until then nothing behind it would fare better.
    [Fact]
    public async Task SendAsync_KeyIsNotForTheLine_WaitsAndNothingBehindItIsTold()
    {
        var posts = PostStreamTests.Posts(4);
        var readings = new FakeReadings
        {
            RefusedIds = { posts[1].ReadingId },
            RefusedWith = StatusCode.PermissionDenied,
            RefusedField = "measurement.identification.line",
        };

        var results = await SendAsync(readings, posts);

        Assert.Equal([OutboxEventKind.Stored, OutboxEventKind.Waiting], results.Select(result => result.Kind));
        Assert.NotEmpty(results[1].Message);
    }

    // No key of the line mends that, and the readings behind it are none the worse.
    [Fact]
    public async Task SendAsync_CorrectsAReadingOfAnotherLine_IsRefusedAndTheOthersAreSent()
    {
        var posts = PostStreamTests.Posts(4);
        var readings = new FakeReadings { RefusedIds = { posts[1].ReadingId }, RefusedWith = StatusCode.PermissionDenied, RefusedField = "corrects.reading_id" };

        var results = await SendAsync(readings, posts);

        Assert.Equal(
            [OutboxEventKind.Stored, OutboxEventKind.Refused, OutboxEventKind.Stored, OutboxEventKind.Stored],
            results.Select(result => result.Kind));
        Assert.Contains("corrects.reading_id", results[1].Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task SendAsync_Stopped_SaysWhatIsKnown()
    {
        await using var server = await FakeServer.StartAsync();
        await using var client = server.Connect();
        using var stopped = new CancellationTokenSource();
        await stopped.CancelAsync();

        var results = await new StreamReadingSender(client).SendAsync(PostStreamTests.Posts(2), stopped.Token);

        Assert.Equal([OutboxEventKind.Waiting], results.Select(result => result.Kind));
    }

    private static async Task<IReadOnlyList<SendResult>> SendAsync(FakeReadings readings, V1.PostReadingRequest[] posts, int maxAttempts = 4)
    {
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = server.Connect(maxAttempts);
        return await new StreamReadingSender(client).SendAsync(posts, Token);
    }
}

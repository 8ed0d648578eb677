using ClearView.Contract.Tests;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Tests.Security;

/// <summary>What a line may post for and read.</summary>
public sealed class StationTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("line 4")]
    [InlineData("LINE 3")]
    [InlineData("line 3 ")]
    [InlineData("")]
    public async Task Line_PostsForItsOwnStationsAlone(string other)
    {
        await using var server = await GuardedServer.StartAsync();
        var key = await server.CreateAsync("line-3", Role.Line, ["line 3"]);

        var posted = await Post(server, key.Secret, Reading("line 3"));
        var error = await Rpc.FailsAsync(StatusCode.PermissionDenied, Post(server, key.Secret, Reading(other)));

        Assert.False(posted.AlreadyStored);
        Assert.Contains("line 3", error.Status.Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Role.Engineer)]
    [InlineData(Role.Lab)]
    public async Task OtherRoles_PostForEveryLine(Role role)
    {
        await using var server = await GuardedServer.StartAsync();
        var key = await server.CreateAsync("bench", role);

        await Post(server, key.Secret, Reading("line 3"));
        await Post(server, key.Secret, Reading(""));
    }

    [Fact]
    public async Task Line_ReadsItsOwnStationsAlone()
    {
        await using var server = await GuardedServer.StartAsync();
        var three = await server.CreateAsync("line-3", Role.Line, ["line 3"]);
        var own = Reading("line 3");
        var other = Reading("line 4");
        await Post(server, server.Administrator, own);
        await Post(server, server.Administrator, other);

        await Get(server, three.Secret, own.ReadingId);
        Assert.Single((await List(server, three.Secret, "line 3")).Readings);
        await Rpc.FailsAsync(StatusCode.PermissionDenied, Get(server, three.Secret, other.ReadingId));
        await Rpc.FailsAsync(StatusCode.PermissionDenied, List(server, three.Secret, "line 4"));
        await Rpc.FailsAsync(StatusCode.PermissionDenied, List(server, three.Secret, ""));
        await WatchFailsAsync(server, three.Secret, "line 4");
        await WatchFailsAsync(server, three.Secret, "");
    }

    [Fact]
    public async Task Line_LearnsNothingOfAReadingOfAnotherLineUnderTheSameId()
    {
        await using var server = await GuardedServer.StartAsync();
        var three = await server.CreateAsync("line-3", Role.Line, ["line 3"]);
        var other = Reading("line 4");
        await Post(server, server.Administrator, other);
        var own = Reading("line 3");
        own.ReadingId = other.ReadingId;

        var error = await Rpc.FailsAsync(StatusCode.AlreadyExists, Post(server, three.Secret, own));

        Assert.Contains("another line", error.Status.Detail, StringComparison.Ordinal);
        Assert.DoesNotContain("line 4", error.Status.Detail, StringComparison.Ordinal);
        Assert.DoesNotContain("measurement", error.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Stream_APostForAnotherLine_IsRefusedByItself()
    {
        await using var server = await GuardedServer.StartAsync();
        var three = await server.CreateAsync("line-3", Role.Line, ["line 3"]);
        using var call = server.Server.Readings.PostReadings(GuardedServer.With(three.Secret), cancellationToken: Token);
        foreach (var line in (string[])["line 3", "line 4", "line 3"])
        {
            await call.RequestStream.WriteAsync(new PostReadingsRequest { Post = Reading(line) }, Token);
        }

        await call.RequestStream.CompleteAsync();
        List<PostReadingsResponse> answers = [];
        while (await call.ResponseStream.MoveNext(Token))
        {
            answers.Add(call.ResponseStream.Current);
        }

        Assert.Equal(
            [PostReadingsResponse.OutcomeOneofCase.Acknowledgement, PostReadingsResponse.OutcomeOneofCase.Refusal, PostReadingsResponse.OutcomeOneofCase.Acknowledgement],
            answers.Select(answer => answer.OutcomeCase));
        Assert.Equal((uint)StatusCode.PermissionDenied, answers[1].Refusal.StatusCode);
        Assert.Contains("line 3", Assert.Single(answers[1].Refusal.FieldViolations).Description, StringComparison.Ordinal);
    }

    private static PostReadingRequest Reading(string line)
    {
        var measurement = WireExamples.Normalised();
        measurement.Identification.Line = line;
        return new PostReadingRequest { ReadingId = Guid.CreateVersion7().ToString(), Measurement = measurement, Method = WireExamples.Method() };
    }

    private static AsyncUnaryCall<PostReadingResponse> Post(GuardedServer server, string secret, PostReadingRequest request) =>
        server.Server.Readings.PostReadingAsync(request, GuardedServer.With(secret), cancellationToken: Token);

    private static AsyncUnaryCall<GetReadingResponse> Get(GuardedServer server, string secret, string id) =>
        server.Server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = id }, GuardedServer.With(secret), cancellationToken: Token);

    private static async Task WatchFailsAsync(GuardedServer server, string secret, string line)
    {
        using var call = server.Server.Readings.WatchReadings(
            new WatchReadingsRequest { Line = line, FromBeginning = true }, GuardedServer.With(secret), cancellationToken: Token);
        var error = await Assert.ThrowsAsync<RpcException>(() => call.ResponseStream.MoveNext(Token));
        Assert.Equal(StatusCode.PermissionDenied, error.StatusCode);
        Assert.DoesNotContain("line 4", error.Status.Detail, StringComparison.Ordinal);
    }

    private static AsyncUnaryCall<ListReadingsResponse> List(GuardedServer server, string secret, string line) =>
        server.Server.Readings.ListReadingsAsync(new ListReadingsRequest { Line = line }, GuardedServer.With(secret), cancellationToken: Token);
}

using ClearView.Records.Model;
using ClearView.V1;

using Grpc.Core;

using Microsoft.Extensions.DependencyInjection;

using static ClearView.Server.Tests.Services.PostStreamExamples;

namespace ClearView.Server.Tests.Services;

public sealed class PostReadingsTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task PostReadings_GoodBadKnownAndConflicting_AnswersEachInOrder()
    {
        await using var server = await TestServer.StartAsync();
        const int count = 700;
        var posts = Enumerable.Range(0, count).Select(number => (number % 10) switch
        {
            3 => Post(number, post => post.Measurement.Conditions.ApertureMm = 0),
            5 => Post(number - 1),
            7 => Post(number - 1, post => post.Measurement.Conditions.Operator = "N. Other"),
            8 => Post(number, Unnamed),
            _ => Post(number),
        }).ToList();

        var answers = await RunAsync(server, posts);

        Assert.Equal(posts.Select(post => post.Post.ReadingId), answers.Select(answer => answer.ReadingId));
        for (var number = 0; number < count; number++)
        {
            var answer = answers[number];
            switch (number % 10)
            {
                case 3:
                    Assert.Equal((uint)StatusCode.InvalidArgument, answer.Refusal.StatusCode);
                    Assert.Equal(["measurement.conditions.aperture_mm"], answer.Refusal.FieldViolations.Select(violation => violation.Field));
                    break;
                case 5:
                    Assert.True(answer.Acknowledgement.AlreadyStored);
                    break;
                case 7:
                    Assert.Equal((uint)StatusCode.AlreadyExists, answer.Refusal.StatusCode);
                    Assert.Equal(["measurement.conditions.operator"], answer.Refusal.FieldViolations.Select(violation => violation.Field));
                    break;
                case 8:
                    Assert.Equal((uint)StatusCode.NotFound, answer.Refusal.StatusCode);
                    Assert.Contains("no-such-method", answer.Refusal.Message, StringComparison.Ordinal);
                    break;
                default:
                    Assert.False(answer.Acknowledgement.AlreadyStored);
                    Assert.NotNull(answer.Acknowledgement.RecordedAt);
                    Assert.Null(answer.Acknowledgement.Reading);
                    break;
            }
        }

        // Stored in the order of the stream.
        var list = await server.Readings.ListReadingsAsync(new ListReadingsRequest { PageSize = 1000, OmitSpectra = true }, cancellationToken: Token);
        var stored = answers.Where(answer => answer.Acknowledgement is { AlreadyStored: false }).Select(answer => answer.ReadingId);
        Assert.Equal(stored, list.Readings.Select(reading => reading.ReadingId));
    }

    [Fact]
    public async Task PostReadings_OnlyDurableReadings_AreAcknowledged()
    {
        var store = new GatedStore();
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<IReadingStore>(store));
        using var call = server.Readings.PostReadings(cancellationToken: Token);
        for (var number = 0; number < 3; number++)
        {
            await call.RequestStream.WriteAsync(Post(number), Token);
        }

        await store.WaitForAsync(3, Token);
        var first = call.ResponseStream.MoveNext(Token);
        Assert.False(first.IsCompleted);
        store.Store(1);
        Assert.True(await first);
        Assert.Equal(Id(0), call.ResponseStream.Current.ReadingId);
        var second = call.ResponseStream.MoveNext(Token);
        Assert.False(second.IsCompleted);
        store.Store(2);
        Assert.True(await second);
        Assert.True(await call.ResponseStream.MoveNext(Token));
        Assert.Equal(Id(2), call.ResponseStream.Current.ReadingId);
    }

    [Fact]
    public async Task PostReadings_ReadingAsked_ComesAsItIsStored()
    {
        await using var server = await TestServer.StartAsync();
        var post = Post(1);
        post.IncludeReading = true;

        var answer = Assert.Single(await RunAsync(server, [post]));

        var stored = await server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = Id(1) }, cancellationToken: Token);
        Assert.Equal(stored.Reading, answer.Acknowledgement.Reading);
    }

    [Fact]
    public async Task PostReadings_SamePosts_AreAnsweredAsPostReadingAnswersThem()
    {
        await using var server = await TestServer.StartAsync();
        await server.Readings.PostReadingAsync(Post(1).Post, cancellationToken: Token);
        PostReadingsRequest[] posts =
        [
            Post(1),
            Post(1, post => post.Measurement.Conditions.ApertureMm = 12),
            Post(2, post => post.ReadingId = "7"),
            Post(3, post => post.Measurement = null),
            Post(4, Unnamed),
            Post(5, post => post.Measurement.MeasuredAt.Seconds += 1_000_000_000),
            Post(6, post => post.Measurement.Scans.Normalised.TotalTransmittance[0] = double.NaN),
            Post(7, post => post.Measurement.Scans.Normalised.TotalTransmittance.Add(Enumerable.Repeat(0.5, 600_000))),
        ];

        var answers = await RunAsync(server, posts);

        Assert.True(answers[0].Acknowledgement.AlreadyStored);
        for (var i = 1; i < posts.Length; i++)
        {
            var refusal = answers[i].Refusal;
            var call = server.Readings.PostReadingAsync(posts[i].Post, cancellationToken: Token);
            if (refusal.FieldViolations.Count == 0)
            {
                var error = await Rpc.FailsAsync((StatusCode)refusal.StatusCode, call);
                Assert.Equal(error.Status.Detail, refusal.Message);
                continue;
            }

            var faults = await Rpc.FaultsAsync((StatusCode)refusal.StatusCode, call);
            Assert.StartsWith(refusal.Message, call.GetStatus().Detail, StringComparison.Ordinal);
            Assert.Equal(faults, refusal.FieldViolations.ToDictionary(violation => violation.Field, violation => violation.Description));
        }

        Assert.Equal((uint)StatusCode.ResourceExhausted, answers[^1].Refusal.StatusCode);
    }

    [Fact]
    public async Task PostReadings_HugeTexts_ComeBackCut()
    {
        await using var server = await TestServer.StartAsync();
        var huge = new string('é', 200_000);

        var answers = await RunAsync(
            server,
            [Post(1, post => post.ReadingId = huge), Post(2, post => post.Corrects = new Correction { ReadingId = huge, Reason = huge, Person = huge })]);

        Assert.All(answers, answer => Assert.NotEmpty(answer.Refusal.FieldViolations));
        Assert.All(answers, answer => Assert.InRange(answer.CalculateSize(), 1, 8192));
        Assert.StartsWith("éééé", answers[0].ReadingId, StringComparison.Ordinal);
        Assert.Equal(Id(2), answers[1].ReadingId);
    }

    [Fact]
    public async Task PostReadings_EarlierReadingThatWouldBeRefusedNow_StaysAnswered()
    {
        var accepts = true;
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<ClearView.Server.Services.EvaluateMeasurement>(
            (measurement, method, omitSpectra) => ClearView.Contract.MeasurementEvaluator.Evaluate(
                accepts ? measurement : null, method, ClearView.Contract.Tests.WireExamples.Clock)));
        await RunAsync(server, [Post(1)]);
        accepts = false;

        var answers = await RunAsync(server, [Post(1), Post(2)]);

        Assert.True(answers[0].Acknowledgement.AlreadyStored);
        Assert.NotNull(answers[1].Refusal);
    }

    [Fact]
    public async Task PostReadings_MessageAbove16Megabytes_EndsTheStreamAfterTheOthersAreAnswered()
    {
        await using var server = await TestServer.StartAsync();
        using var call = server.Readings.PostReadings(cancellationToken: Token);
        await call.RequestStream.WriteAsync(Post(1), Token);
        var sending = call.RequestStream.WriteAsync(
            Post(2, post => post.Measurement.Scans.Normalised.TotalTransmittance.Add(Enumerable.Repeat(0.5, 2_200_000))), Token);

        Assert.True(await call.ResponseStream.MoveNext(Token));
        Assert.NotNull(call.ResponseStream.Current.Acknowledgement);
        var error = await Assert.ThrowsAsync<RpcException>(() => call.ResponseStream.MoveNext(Token));
        await Record.ExceptionAsync(() => sending);
        Assert.Equal(StatusCode.ResourceExhausted, error.StatusCode);
    }

    private static void Unnamed(PostReadingRequest post) => post.MethodName = new MethodName { Name = "no-such-method" };
}

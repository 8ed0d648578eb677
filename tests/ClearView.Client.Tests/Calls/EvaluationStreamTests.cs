using System.Runtime.CompilerServices;

using ClearView.V1;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

public class EvaluationStreamTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(1000)]
    public async Task EvaluateManyAsync_AnyNumber_AnswersEachInOrder(int count)
    {
        await using var server = await FakeServer.StartAsync();
        await using var client = server.Connect();

        Assert.Equal(Names(count), await RunAsync(client, count));
    }

    [Theory]
    [InlineData(0, 2)]
    [InlineData(1, 3)]
    [InlineData(100, 5)]
    public async Task EvaluateManyAsync_StreamBreaks_TakesUpWhatWasNotAnswered(int answersBeforeBreak, int breaks)
    {
        var evaluations = new FakeEvaluations { StreamsToBreak = breaks, AnswersBeforeBreak = answersBeforeBreak };
        await using var server = await FakeServer.StartAsync(evaluations);
        await using var client = server.Connect();

        Assert.Equal(Names(700), await RunAsync(client, 700));
        Assert.Equal(breaks + 1, evaluations.Streams);
    }

    [Fact]
    public async Task EvaluateManyAsync_StreamNeverGetsAnywhere_GivesUpAfterTheAttempts()
    {
        var evaluations = new FakeEvaluations { StreamsToBreak = int.MaxValue };
        await using var server = await FakeServer.StartAsync(evaluations);
        await using var client = server.Connect(maxAttempts: 3);

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => RunAsync(client, 10));

        Assert.Equal(StatusCode.Unavailable, fault.Status);
        Assert.Equal(3, evaluations.Streams);
    }

    [Fact]
    public async Task EvaluateManyAsync_NoAnswer_EndsAtTheDeadline()
    {
        await using var server = await FakeServer.StartAsync(new FakeEvaluations { NeverAnswers = true });
        await using var client = ClearViewClient.Connect(server.Address, new ClearViewClientOptions { CallDeadline = TimeSpan.FromMilliseconds(200) });

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => RunAsync(client, 10));

        Assert.Equal(StatusCode.DeadlineExceeded, fault.Status);
    }

    [Fact]
    public async Task EvaluateManyAsync_CallersSequenceFails_ItsFaultComesThrough()
    {
        await using var server = await FakeServer.StartAsync();
        await using var client = server.Connect();

        await Assert.ThrowsAsync<FormatException>(() => RunAsync(client, 10, failAt: 5));
    }

    [Fact]
    public async Task EvaluateManyAsync_CallerStopsReading_Ends()
    {
        await using var server = await FakeServer.StartAsync();
        await using var client = server.Connect();
        var seen = 0;

        await foreach (var _ in client.EvaluateManyAsync(Requests(100_000, -1, Token), Token))
        {
            if (++seen == 10)
            {
                break;
            }
        }

        Assert.Equal(10, seen);
    }

    [Fact]
    public async Task EvaluateManyAsync_Cancelled_SaysSo()
    {
        await using var server = await FakeServer.StartAsync(new FakeEvaluations { NeverAnswers = true });
        await using var client = server.Connect();
        using var cancellation = CancellationTokenSource.CreateLinkedTokenSource(Token);
        cancellation.CancelAfter(TimeSpan.FromMilliseconds(100));

        await Assert.ThrowsAnyAsync<OperationCanceledException>(async () =>
        {
            await foreach (var _ in client.EvaluateManyAsync(Requests(10, -1, cancellation.Token), cancellation.Token))
            {
            }
        });
    }

    private static IEnumerable<string> Names(int count) => Enumerable.Range(0, count).Select(Name);

    private static string Name(int i) => i.ToString(System.Globalization.CultureInfo.InvariantCulture);

    private static async Task<List<string>> RunAsync(ClearViewClient client, int count, int failAt = -1)
    {
        var names = new List<string>();
        await foreach (var response in client.EvaluateManyAsync(Requests(count, failAt, Token), Token))
        {
            names.Add(response.Evaluation.CieDataVersion);
        }
        return names;
    }

    private static async IAsyncEnumerable<EvaluateManyRequest> Requests(
        int count, int failAt, [EnumeratorCancellation] CancellationToken cancellationToken = default)
    {
        for (var i = 0; i < count; i++)
        {
            cancellationToken.ThrowIfCancellationRequested();
            if (i == failAt)
            {
                throw new FormatException("the caller's own");
            }
            await Task.Yield();
            yield return new EvaluateManyRequest
            {
                CorrelationId = Name(i),
                Measurement = new Measurement { Identification = new Identification { Specimen = Name(i) } },
            };
        }
    }
}

using System.Globalization;

using ClearView.V1;

namespace ClearView.Client.Tests.Calls;

public class EvaluationBatchesTests
{
    private const int BatchSize = 3;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(100)]
    public async Task EvaluateBatchesAsync_AnyNumber_AnswersEachMeasurementInOrder(int batches)
    {
        await using var server = await FakeServer.StartAsync();
        await using var client = server.Connect();

        Assert.Equal(Names(batches), await RunAsync(client, batches));
    }

    [Theory]
    [InlineData(0, 2)]
    [InlineData(5, 4)]
    public async Task EvaluateBatchesAsync_StreamBreaks_TakesUpWhatWasNotAnswered(int answersBeforeBreak, int breaks)
    {
        var evaluations = new FakeEvaluations { StreamsToBreak = breaks, AnswersBeforeBreak = answersBeforeBreak };
        await using var server = await FakeServer.StartAsync(evaluations);
        await using var client = server.Connect();

        Assert.Equal(Names(60), await RunAsync(client, 60));
        Assert.Equal(breaks + 1, evaluations.Streams);
    }

    private static IEnumerable<string> Names(int batches) => Enumerable.Range(0, batches * BatchSize).Select(Name);

    private static string Name(int i) => i.ToString(CultureInfo.InvariantCulture);

    private static async Task<List<string>> RunAsync(ClearViewClient client, int batches)
    {
        var names = new List<string>();
        await foreach (var response in client.EvaluateBatchesAsync(Requests(batches), Token))
        {
            names.AddRange(response.Outcomes.Select(outcome => outcome.Evaluation.CieDataVersion));
        }

        return names;
    }

    private static async IAsyncEnumerable<EvaluateBatchesRequest> Requests(int batches)
    {
        for (var i = 0; i < batches; i++)
        {
            await Task.Yield();
            yield return new EvaluateBatchesRequest
            {
                CorrelationId = Name(i),
                Measurements =
                {
                    Enumerable.Range(i * BatchSize, BatchSize).Select(number => new Measurement { Identification = new Identification { Specimen = Name(number) } }),
                },
            };
        }
    }
}

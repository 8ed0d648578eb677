using ClearView.V1;

namespace ClearView.Benchmarks.Evaluating;

/// <summary>Sends specimens over one stream as fast as it takes them, and reads the answers at the same time.</summary>
internal static class MessageStream
{
    /// <summary>Sends and reads all.</summary>
    /// <returns>The last evaluation.</returns>
    /// <exception cref="InvalidOperationException">An answer is missing, out of order, or a refusal.</exception>
    public static async Task<Evaluation> RunAsync(EvaluationService.EvaluationServiceClient client, EvaluateManyRequest[] requests)
    {
        using var call = client.EvaluateMany();
        var sending = Task.Run(async () =>
        {
            foreach (var request in requests)
            {
                await call.RequestStream.WriteAsync(request);
            }

            await call.RequestStream.CompleteAsync();
        });
        var count = 0;
        Evaluation? last = null;
        while (await call.ResponseStream.MoveNext(CancellationToken.None))
        {
            var answer = call.ResponseStream.Current;
            if (answer.Evaluation is null || answer.CorrelationId != requests[count].CorrelationId)
            {
                throw new InvalidOperationException($"Message {requests[count].CorrelationId} was not evaluated: {answer}");
            }

            last = answer.Evaluation;
            count++;
        }

        await sending;
        return count == requests.Length ? last! : throw new InvalidOperationException("Not every message was answered.");
    }
}

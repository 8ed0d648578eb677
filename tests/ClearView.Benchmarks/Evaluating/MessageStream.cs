using Grpc.Core;

namespace ClearView.Benchmarks.Evaluating;

/// <summary>Sends messages over one stream as fast as it takes them, and reads the answers at the same time.</summary>
internal static class MessageStream
{
    /// <summary>Sends and reads all.</summary>
    /// <param name="call">The stream.</param>
    /// <param name="requests">The messages.</param>
    /// <param name="isAnswer">Whether an answer is the right one to a message.</param>
    /// <returns>The last answer.</returns>
    /// <exception cref="InvalidOperationException">An answer is missing, out of order, or a refusal.</exception>
    public static async Task<TResponse> RunAsync<TRequest, TResponse>(
        AsyncDuplexStreamingCall<TRequest, TResponse> call, IReadOnlyList<TRequest> requests, Func<TRequest, TResponse, bool> isAnswer)
        where TResponse : class
    {
        var sending = Task.Run(async () =>
        {
            foreach (var request in requests)
            {
                await call.RequestStream.WriteAsync(request);
            }

            await call.RequestStream.CompleteAsync();
        });
        var count = 0;
        TResponse? last = null;
        while (await call.ResponseStream.MoveNext(CancellationToken.None))
        {
            last = call.ResponseStream.Current;
            if (!isAnswer(requests[count], last))
            {
                throw new InvalidOperationException($"Message {count} was not evaluated: {last}");
            }

            count++;
        }

        await sending;
        return count == requests.Count ? last! : throw new InvalidOperationException("Not every message was answered.");
    }
}

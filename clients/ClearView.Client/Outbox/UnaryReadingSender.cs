using ClearView.V1;

using Grpc.Core;

namespace ClearView.Client.Outbox;

/// <summary>Sends readings one after the other, each as a call of its own.</summary>
/// <param name="client">Calls the server.</param>
public sealed class UnaryReadingSender(ClearViewClient client) : IReadingSender
{
    /// <inheritdoc/>
    public async Task<IReadOnlyList<SendResult>> SendAsync(IReadOnlyList<PostReadingRequest> readings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(readings);
        List<SendResult> results = [];
        foreach (var reading in readings)
        {
            var result = await SendAsync(reading, cancellationToken).ConfigureAwait(false);
            results.Add(result);
            if (result.Kind == OutboxEventKind.Waiting)
            {
                break;
            }
        }
        return results;
    }

    private async Task<SendResult> SendAsync(PostReadingRequest reading, CancellationToken cancellationToken)
    {
        try
        {
            var response = await client.PostAsync(reading, cancellationToken).ConfigureAwait(false);
            return new SendResult(response.AlreadyStored ? OutboxEventKind.AlreadyStored : OutboxEventKind.Stored);
        }
        catch (ClearViewCallException e)
        {
            return new SendResult(IsForGood(e) ? OutboxEventKind.Refused : OutboxEventKind.Waiting, e.Message);
        }
        catch (OperationCanceledException)
        {
            return new SendResult(OutboxEventKind.Waiting, "stopped");
        }
    }

    // Every fault that the same bytes meet again until somebody acts. A missing key or right is not among them: it is mended here or
    // at the server, and until then no reading of any line would fare better.
    private static bool IsForGood(ClearViewCallException fault) => fault.Status switch
    {
        StatusCode.InvalidArgument or StatusCode.AlreadyExists or StatusCode.NotFound or StatusCode.FailedPrecondition or StatusCode.OutOfRange => true,
        // gRPC itself says so of a message beyond the server's size; a busy server may say it of any.
        StatusCode.ResourceExhausted => fault.Message.Contains("maximum", StringComparison.Ordinal) && fault.Message.Contains("message size", StringComparison.Ordinal),
        _ => false,
    };
}

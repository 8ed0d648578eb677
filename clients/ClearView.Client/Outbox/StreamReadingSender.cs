using ClearView.V1;

using Grpc.Core;

namespace ClearView.Client.Outbox;

/// <summary>Sends readings over a stream, so that the server stores many together.</summary>
/// <param name="client">Calls the server.</param>
/// <param name="includeReadings">Whether acknowledgements bring the readings as they are stored; <see langword="false"/> leaves them out.</param>
public sealed class StreamReadingSender(ClearViewClient client, bool includeReadings = false) : IReadingSender
{
    private const string LineField = "measurement.identification.line";

    /// <inheritdoc/>
    public async Task<IReadOnlyList<SendResult>> SendAsync(IReadOnlyList<PostReadingRequest> readings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(readings);
        List<SendResult> results = [];
        while (results.Count < readings.Count)
        {
            try
            {
                var rest = readings.Skip(results.Count).ToAsyncEnumerable();
                await foreach (var answer in client.PostManyAsync(rest, includeReadings, cancellationToken).ConfigureAwait(false))
                {
                    results.Add(ResultOf(answer));
                    if (results[^1].Kind == OutboxEventKind.Waiting)
                    {
                        return results;
                    }
                }
            }
            catch (ClearViewCallException e) when (IsOfTheFirstUnanswered(e))
            {
                results.Add(new SendResult(OutboxEventKind.Refused, e.Message));
            }
            catch (ClearViewCallException e)
            {
                results.Add(new SendResult(OutboxEventKind.Waiting, e.Message));
                break;
            }
            catch (OperationCanceledException)
            {
                results.Add(new SendResult(OutboxEventKind.Waiting, "stopped"));
                break;
            }
        }
        return results;
    }

    private static SendResult ResultOf(PostReadingsResponse answer) => answer.Acknowledgement is { } acknowledgement
        ? new SendResult(acknowledgement.AlreadyStored ? OutboxEventKind.AlreadyStored : OutboxEventKind.Stored, Acknowledgement: acknowledgement)
        : new SendResult(IsMendable(answer.Refusal) ? OutboxEventKind.Waiting : OutboxEventKind.Refused, ClearViewCallException.From(answer.Refusal).Message);

    // A key that is not for the line is mended here or at the server; until then no reading of the line would fare better. Any other
    // denial, such as of a correction of another line's reading, concerns that one reading.
    private static bool IsMendable(PostRefusal refusal) => (StatusCode)refusal.StatusCode == StatusCode.PermissionDenied
        && refusal.FieldViolations.Any(violation => violation.Field == LineField);

    // A message beyond what the stream takes ends it, once all before are answered. gRPC itself says so; a busy server may say it of any.
    private static bool IsOfTheFirstUnanswered(ClearViewCallException fault) =>
        fault.Status == StatusCode.ResourceExhausted
        && fault.Message.Contains("maximum", StringComparison.Ordinal) && fault.Message.Contains("message size", StringComparison.Ordinal);
}

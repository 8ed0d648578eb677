using ClearView.Server.Hosting;
using ClearView.Server.Mapping;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>Evaluation without storing, on the wire.</summary>
internal sealed class EvaluationGrpcService(
    EvaluateMeasurement evaluate, OpenStreams openStreams, ILogger<EvaluationGrpcService> logger)
    : EvaluationService.EvaluationServiceBase
{
    private const int MaxCorrelationIdLength = 100;

    public override Task<EvaluateResponse> Evaluate(EvaluateRequest request, ServerCallContext context)
    {
        var outcome = evaluate(request.Measurement, request.Method);
        if (!outcome.IsAccepted)
        {
            EvaluationLog.Refused(logger, outcome.Violations.Length);
            throw FieldFaults.Invalid(outcome.Violations);
        }

        return Task.FromResult(new EvaluateResponse { Evaluation = Shown(outcome.Evaluation, request.OmitSpectra) });
    }

    public override async Task EvaluateMany(
        IAsyncStreamReader<EvaluateManyRequest> requestStream,
        IServerStreamWriter<EvaluateManyResponse> responseStream,
        ServerCallContext context)
    {
        openStreams.Add(context.GetHttpContext().Response);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(context.CancellationToken, openStreams.Stopping);
        var count = 0L;
        var refused = 0L;
        try
        {
            while (await requestStream.MoveNext(stop.Token).ConfigureAwait(false))
            {
                var response = Answer(requestStream.Current);
                count++;
                refused += response.Refusal is null ? 0 : 1;
                await responseStream.WriteAsync(response, stop.Token).ConfigureAwait(false);
            }
        }
        catch (Exception error) when (
            openStreams.Stopping.IsCancellationRequested
            && !context.CancellationToken.IsCancellationRequested
            && IsCancellation(error))
        {
            throw new RpcException(new Status(StatusCode.Unavailable, "The server is stopping; repeat what was not answered."));
        }
        finally
        {
            EvaluationLog.StreamEnded(logger, count, refused);
        }
    }

    private EvaluateManyResponse Answer(EvaluateManyRequest request)
    {
        var response = new EvaluateManyResponse { CorrelationId = request.CorrelationId };
        var outcome = evaluate(request.Measurement, request.Method);
        var correlationFault = CorrelationFault(request.CorrelationId);
        if (outcome.IsAccepted && correlationFault is null)
        {
            response.Evaluation = Shown(outcome.Evaluation, request.OmitSpectra);
            return response;
        }

        response.Refusal = new Refusal();
        if (correlationFault is not null)
        {
            response.Refusal.FieldViolations.Add(correlationFault);
        }

        response.Refusal.FieldViolations.AddRange(outcome.Violations);
        return response;
    }

    private static FieldViolation? CorrelationFault(string correlationId) =>
        correlationId.Length <= MaxCorrelationIdLength
            ? null
            : new FieldViolation
            {
                Field = "correlation_id",
                Description = $"{correlationId.Length} characters; expected up to {MaxCorrelationIdLength}.",
            };

    private static Evaluation Shown(Evaluation evaluation, bool omitSpectra)
    {
        if (omitSpectra)
        {
            evaluation.Spectra = null;
        }

        return evaluation;
    }

    private static bool IsCancellation(Exception error) =>
        error is OperationCanceledException or RpcException { StatusCode: StatusCode.Cancelled };
}

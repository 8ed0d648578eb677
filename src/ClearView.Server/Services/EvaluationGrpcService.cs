using ClearView.Contract;
using ClearView.Server.Faults;
using ClearView.Server.Hosting;
using ClearView.Server.Mapping;
using ClearView.Server.Receiving;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>Evaluation without storing, on the wire.</summary>
internal sealed class EvaluationGrpcService(
    EvaluateMeasurement evaluate, MethodResolver methods, TimeProvider clock, OpenStreams openStreams, ILogger<EvaluationGrpcService> logger)
    : EvaluationService.EvaluationServiceBase
{
    private const int MaxCorrelationIdLength = 100;

    public override async Task<EvaluateResponse> Evaluate(EvaluateRequest request, ServerCallContext context)
    {
        var method = await methods.ResolveAsync(request.Method, request.MethodName, context.CancellationToken).ConfigureAwait(false);
        var outcome = evaluate(request.Measurement, method);
        if (!outcome.IsAccepted)
        {
            EvaluationLog.Refused(logger, outcome.Violations.Length);
            throw FieldFaults.Invalid(outcome.Violations);
        }

        return new EvaluateResponse { Evaluation = Shown(outcome.Evaluation, request.OmitSpectra) };
    }

    public override async Task<EvaluateSpecimensResponse> EvaluateSpecimens(EvaluateSpecimensRequest request, ServerCallContext context)
    {
        var method = await methods.ResolveAsync(request.Method, request.MethodName, context.CancellationToken).ConfigureAwait(false);
        var outcome = SpecimensEvaluator.Evaluate(request.Measurements, method, clock, context.CancellationToken);
        if (!outcome.IsAccepted)
        {
            EvaluationLog.Refused(logger, outcome.Violations.Length);
            throw FieldFaults.Invalid(outcome.Violations);
        }

        foreach (var evaluation in outcome.Response.Evaluations)
        {
            Shown(evaluation, request.OmitSpectra);
        }

        return outcome.Response;
    }

    public override async Task EvaluateMany(
        IAsyncStreamReader<EvaluateManyRequest> requestStream,
        IServerStreamWriter<EvaluateManyResponse> responseStream,
        ServerCallContext context)
    {
        openStreams.Add(context.GetHttpContext().Response);
        var count = 0L;
        var refused = 0L;
        try
        {
            while (await NextAnswerAsync(requestStream, context.CancellationToken).ConfigureAwait(false) is { } response)
            {
                count++;
                refused += response.Refusal is null ? 0 : 1;
                await responseStream.WriteAsync(response, context.CancellationToken).ConfigureAwait(false);
            }
        }
        finally
        {
            EvaluationLog.StreamEnded(logger, count, refused);
        }
    }

    // The answer to the next specimen; null at the end of the stream.
    private async Task<EvaluateManyResponse?> NextAnswerAsync(IAsyncStreamReader<EvaluateManyRequest> requestStream, CancellationToken cancellationToken)
    {
        try
        {
            if (!await NextAsync(requestStream).ConfigureAwait(false))
            {
                return null;
            }
        }
        catch (MalformedMessageException malformed)
        {
            return new EvaluateManyResponse { Refusal = new Refusal { FieldViolations = { malformed.Violation } } };
        }

        return await AnswerAsync(requestStream.Current, cancellationToken).ConfigureAwait(false);
    }

    // The read is left behind rather than cancelled when the server stops: cancelling it resets the stream, and the
    // client would not see the status.
    private async Task<bool> NextAsync(IAsyncStreamReader<EvaluateManyRequest> requestStream)
    {
        var next = requestStream.MoveNext(CancellationToken.None);
        try
        {
            return await next.WaitAsync(openStreams.Stopping).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (openStreams.Stopping.IsCancellationRequested)
        {
            _ = next.ContinueWith(
                static read => read.Exception, CancellationToken.None, TaskContinuationOptions.OnlyOnFaulted, TaskScheduler.Default);
            throw new RpcException(new Status(StatusCode.Unavailable, "The server is stopping; repeat what was not answered."));
        }
    }

    private async Task<EvaluateManyResponse> AnswerAsync(EvaluateManyRequest request, CancellationToken cancellationToken)
    {
        var response = new EvaluateManyResponse { CorrelationId = request.CorrelationId };
        var method = await ChoiceAsync(request, cancellationToken).ConfigureAwait(false);
        var outcome = evaluate(request.Measurement, method);
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

    // A name that is not there concerns its own specimen only, and does not end the stream.
    private async Task<MethodChoice> ChoiceAsync(EvaluateManyRequest request, CancellationToken cancellationToken)
    {
        try
        {
            return await methods.ResolveAsync(request.Method, request.MethodName, cancellationToken).ConfigureAwait(false);
        }
        catch (DocumentNotFoundException notFound)
        {
            return MethodChoice.Refused([new FieldViolation { Field = "method_name", Description = notFound.Message }]);
        }
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
}

using ClearView.Contract;
using ClearView.Contract.Validation;
using ClearView.Server.Hosting;
using ClearView.Server.Mapping;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>Evaluation without storing, on the wire.</summary>
internal sealed class EvaluationGrpcService(
    EvaluateMeasurement evaluate, MethodResolver methods, TimeProvider clock, OpenStreams openStreams, ILogger<EvaluationGrpcService> logger)
    : EvaluationService.EvaluationServiceBase
{
    public override async Task<EvaluateResponse> Evaluate(EvaluateRequest request, ServerCallContext context)
    {
        var method = await methods.ResolveAsync(request.Method, request.MethodName, context.CancellationToken).ConfigureAwait(false);
        var outcome = evaluate(request.Measurement, method, request.OmitSpectra);
        if (!outcome.IsAccepted)
        {
            EvaluationLog.Refused(logger, outcome.Violations.Length);
            throw FieldFaults.Invalid(outcome.Violations);
        }

        return new EvaluateResponse { Evaluation = outcome.Evaluation };
    }

    public override async Task<EvaluateSpecimensResponse> EvaluateSpecimens(EvaluateSpecimensRequest request, ServerCallContext context)
    {
        var method = await methods.ResolveAsync(request.Method, request.MethodName, context.CancellationToken).ConfigureAwait(false);
        var outcome = SpecimensEvaluator.Evaluate(request.Measurements, method, clock, request.OmitSpectra, context.CancellationToken);
        if (!outcome.IsAccepted)
        {
            EvaluationLog.Refused(logger, outcome.Violations.Length);
            throw FieldFaults.Invalid(outcome.Violations);
        }

        return outcome.Response;
    }

    public override Task EvaluateMany(
        IAsyncStreamReader<EvaluateManyRequest> requestStream,
        IServerStreamWriter<EvaluateManyResponse> responseStream,
        ServerCallContext context) =>
        ServeAsync(
            requestStream,
            responseStream,
            context,
            AnswerSize.Small,
            AnswerAsync,
            static fault => new EvaluateManyResponse { Refusal = new Refusal { FieldViolations = { fault } } },
            static (request, response) => (1, response.Refusal is null ? 0 : 1));

    public override Task EvaluateBatches(
        IAsyncStreamReader<EvaluateBatchesRequest> requestStream,
        IServerStreamWriter<EvaluateBatchesResponse> responseStream,
        ServerCallContext context) =>
        ServeAsync(
            requestStream,
            responseStream,
            context,
            AnswerSize.Large,
            AnswerAsync,
            static fault => new EvaluateBatchesResponse { Refusal = new Refusal { FieldViolations = { fault } } },
            static (request, response) => (
                request.Measurements.Count,
                response.Refusal is null ? response.Outcomes.Count(outcome => outcome.Refusal is not null) : request.Measurements.Count));

    private async Task ServeAsync<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requests,
        IServerStreamWriter<TResponse> responses,
        ServerCallContext context,
        AnswerSize size,
        Func<TRequest, StreamMethods, CancellationToken, ValueTask<TResponse>> answer,
        Func<FieldViolation, TResponse> refuse,
        Func<TRequest, TResponse, (int Specimens, int Refused)> count)
    {
        openStreams.Add(context.GetHttpContext().Response);
        var chosen = new StreamMethods(methods);
        var specimenCount = 0L;
        var refusedCount = 0L;
        try
        {
            await new AnswerStream<TRequest, TResponse>(requests, responses, openStreams, size).RunAsync(
                async request =>
                {
                    var response = await answer(request, chosen, context.CancellationToken).ConfigureAwait(false);
                    var (specimens, refused) = count(request, response);
                    specimenCount += specimens;
                    refusedCount += refused;
                    return response;
                },
                fault =>
                {
                    specimenCount++;
                    refusedCount++;
                    return refuse(fault);
                },
                context.CancellationToken).ConfigureAwait(false);
        }
        finally
        {
            EvaluationLog.StreamEnded(logger, specimenCount, refusedCount);
        }
    }

    private async ValueTask<EvaluateManyResponse> AnswerAsync(EvaluateManyRequest request, StreamMethods chosen, CancellationToken cancellationToken)
    {
        var response = new EvaluateManyResponse { CorrelationId = request.CorrelationId };
        var method = await chosen.ChoiceAsync(request.Method, request.MethodName, cancellationToken).ConfigureAwait(false);
        var outcome = evaluate(request.Measurement, method, request.OmitSpectra);
        var atFault = new Violations();
        CorrelationRules.Check(request.CorrelationId, atFault);
        if (outcome.IsAccepted && atFault.IsEmpty)
        {
            response.Evaluation = outcome.Evaluation;
            return response;
        }

        response.Refusal = new Refusal { FieldViolations = { atFault.ToImmutable(), outcome.Violations } };
        return response;
    }

    private async ValueTask<EvaluateBatchesResponse> AnswerAsync(EvaluateBatchesRequest request, StreamMethods chosen, CancellationToken cancellationToken)
    {
        var method = await chosen.ChoiceAsync(request.Method, request.MethodName, cancellationToken).ConfigureAwait(false);
        return BatchEvaluator.Evaluate(request, method, clock, cancellationToken);
    }
}

using ClearView.V1;

using Google.Protobuf;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

/// <summary>Answers evaluations with the specimen's name; a stream breaks after a number of answers, as often as it is told.</summary>
internal sealed class FakeEvaluations : EvaluationService.EvaluationServiceBase
{
    /// <summary>Streams still to break.</summary>
    public int StreamsToBreak { get; set; }

    /// <summary>Answers before a stream breaks.</summary>
    public int AnswersBeforeBreak { get; set; }

    /// <summary>Streams that were opened.</summary>
    public int Streams { get; private set; }

    /// <summary>Whether every answer is delayed beyond any patience.</summary>
    public bool NeverAnswers { get; set; }

    /// <summary>Unary calls still to fail as unavailable.</summary>
    public int CallsToFail { get; set; }

    /// <summary>Whether no method has the name of a request.</summary>
    public bool KnowsNoName { get; set; }

    /// <summary>Unary requests, in the order in which they came.</summary>
    public List<IMessage> Requests { get; } = [];

    public override async Task<EvaluateResponse> Evaluate(EvaluateRequest request, ServerCallContext context)
    {
        Take(request, request.MethodName);
        if (NeverAnswers)
        {
            await Task.Delay(Timeout.Infinite, context.CancellationToken);
        }
        return new EvaluateResponse { Evaluation = Named(request.Measurement) };
    }

    public override Task<EvaluateSpecimensResponse> EvaluateSpecimens(EvaluateSpecimensRequest request, ServerCallContext context)
    {
        Take(request, request.MethodName);
        return Task.FromResult(new EvaluateSpecimensResponse
        {
            Evaluations = { request.Measurements.Select(Named) },
        });
    }

    public override Task EvaluateMany(
        IAsyncStreamReader<EvaluateManyRequest> requestStream, IServerStreamWriter<EvaluateManyResponse> responseStream, ServerCallContext context) =>
        AnswerAsync(requestStream, responseStream, context, request => new EvaluateManyResponse
        {
            CorrelationId = request.CorrelationId,
            Evaluation = Named(request.Measurement),
        });

    public override Task EvaluateBatches(
        IAsyncStreamReader<EvaluateBatchesRequest> requestStream, IServerStreamWriter<EvaluateBatchesResponse> responseStream, ServerCallContext context) =>
        AnswerAsync(requestStream, responseStream, context, request => new EvaluateBatchesResponse
        {
            CorrelationId = request.CorrelationId,
            Outcomes = { request.Measurements.Select(one => new SpecimenOutcome { Evaluation = Named(one) }) },
        });

    private async Task AnswerAsync<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream,
        IServerStreamWriter<TResponse> responseStream,
        ServerCallContext context,
        Func<TRequest, TResponse> answer)
    {
        Streams++;
        var breaks = StreamsToBreak-- > 0;
        var answered = 0;
        await foreach (var request in requestStream.ReadAllAsync(context.CancellationToken))
        {
            if (NeverAnswers)
            {
                await Task.Delay(Timeout.Infinite, context.CancellationToken);
            }
            if (breaks && answered++ == AnswersBeforeBreak)
            {
                throw new RpcException(new Status(StatusCode.Unavailable, "stopping"));
            }
            await responseStream.WriteAsync(answer(request));
        }
    }

    private static Evaluation Named(Measurement measurement) => new() { CieDataVersion = measurement.Identification.Specimen };

    private void Take(IMessage request, MethodName? name)
    {
        Requests.Add(request);
        if (CallsToFail-- > 0)
        {
            throw new RpcException(new Status(StatusCode.Unavailable, "told to fail"));
        }
        if (KnowsNoName && name is not null)
        {
            throw new RpcException(new Status(StatusCode.NotFound, $"No method has the name \"{name.Name}\"."));
        }
    }
}

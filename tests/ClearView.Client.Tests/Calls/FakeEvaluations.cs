using ClearView.V1;

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

    public override async Task<EvaluateResponse> Evaluate(EvaluateRequest request, ServerCallContext context)
    {
        if (NeverAnswers)
        {
            await Task.Delay(Timeout.Infinite, context.CancellationToken);
        }
        return new EvaluateResponse { Evaluation = new Evaluation { CieDataVersion = request.Measurement.Identification.Specimen } };
    }

    public override async Task EvaluateMany(
        IAsyncStreamReader<EvaluateManyRequest> requestStream, IServerStreamWriter<EvaluateManyResponse> responseStream, ServerCallContext context)
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
            await responseStream.WriteAsync(new EvaluateManyResponse
            {
                CorrelationId = request.CorrelationId,
                Evaluation = new Evaluation { CieDataVersion = request.Measurement.Identification.Specimen },
            });
        }
    }
}

using ClearView.V1;

using Grpc.Core;

namespace ClearView.Benchmarks.Evaluating;

/// <summary>Answers specimens without looking at them.</summary>
internal sealed class EchoEvaluations(EchoAnswers answers) : EvaluationService.EvaluationServiceBase
{
    public override async Task EvaluateMany(
        IAsyncStreamReader<EvaluateManyRequest> requestStream, IServerStreamWriter<EvaluateManyResponse> responseStream, ServerCallContext context)
    {
        while (await requestStream.MoveNext(context.CancellationToken))
        {
            var answer = new EvaluateManyResponse { CorrelationId = requestStream.Current.CorrelationId, Evaluation = answers.Evaluation };
            await responseStream.WriteAsync(answer, context.CancellationToken);
        }
    }

    public override async Task EvaluateBatches(
        IAsyncStreamReader<EvaluateBatchesRequest> requestStream, IServerStreamWriter<EvaluateBatchesResponse> responseStream, ServerCallContext context)
    {
        while (await requestStream.MoveNext(context.CancellationToken))
        {
            // The stored answer is of one batch; under another identifier it is made anew around the same outcomes.
            var answer = new EvaluateBatchesResponse { CorrelationId = requestStream.Current.CorrelationId, Outcomes = { answers.Batch.Outcomes } };
            await responseStream.WriteAsync(answer, context.CancellationToken);
        }
    }
}

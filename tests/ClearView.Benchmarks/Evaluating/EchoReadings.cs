using ClearView.V1;

using Grpc.Core;

namespace ClearView.Benchmarks.Evaluating;

/// <summary>Answers posts without looking at them.</summary>
internal sealed class EchoReadings(EchoAnswers answers) : ReadingService.ReadingServiceBase
{
    public override Task<PostReadingResponse> PostReading(PostReadingRequest request, ServerCallContext context) => Task.FromResult(answers.Post);
}

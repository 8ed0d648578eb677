using ClearView.V1;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

/// <summary>Verdicts that answer as they are told.</summary>
internal sealed class FakeJudgements(DecisionLog log) : JudgementService.JudgementServiceBase
{
    public override Task<JudgeSpecimensResponse> JudgeSpecimens(JudgeSpecimensRequest request, ServerCallContext context)
    {
        log.Take(request);
        return Task.FromResult(new JudgeSpecimensResponse());
    }

    public override Task JudgeReadings(JudgeReadingsRequest request, IServerStreamWriter<JudgeReadingsResponse> responseStream, ServerCallContext context)
    {
        log.Take(request);
        return log.SendAsync(responseStream, new JudgeReadingsResponse { Specimen = "1" }, new JudgeReadingsResponse { Specimen = "2" });
    }
}

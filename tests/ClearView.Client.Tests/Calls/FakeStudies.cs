using ClearView.V1;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

/// <summary>Studies that answer as they are told.</summary>
internal sealed class FakeStudies(DecisionLog log) : StudyService.StudyServiceBase
{
    public override Task<EstimateCapabilityResponse> EstimateCapability(EstimateCapabilityRequest request, ServerCallContext context)
    {
        log.Take(request);
        return Task.FromResult(new EstimateCapabilityResponse { Capability = new Capability() });
    }

    public override Task<MapRollResponse> MapRoll(MapRollRequest request, ServerCallContext context)
    {
        log.Take(request);
        return Task.FromResult(new MapRollResponse { RollMap = new RollMap() });
    }

    public override Task<CompareLotsResponse> CompareLots(CompareLotsRequest request, ServerCallContext context)
    {
        log.Take(request);
        return Task.FromResult(new CompareLotsResponse());
    }

    public override Task<PlanSamplingResponse> PlanSampling(PlanSamplingRequest request, ServerCallContext context)
    {
        log.Take(request);
        return Task.FromResult(new PlanSamplingResponse { SpecimenCount = 7 });
    }
}

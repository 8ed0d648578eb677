using ClearView.Contract.Studies;
using ClearView.Contract.Validation;
using ClearView.Server.Mapping;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>Studies of readings, on the wire. Nothing is stored.</summary>
internal sealed class StudyGrpcService(StudyData data, ILogger<StudyGrpcService> logger) : StudyService.StudyServiceBase
{
    public override async Task<EstimateCapabilityResponse> EstimateCapability(EstimateCapabilityRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var question = CapabilityStudy.Read(request, violations);
        FieldFaults.ThrowIfAny(violations);
        var limits = request.Limits
            ?? await data.ReadLimitsAsync(request.SpecificationName, question!.Measurand, context.CancellationToken).ConfigureAwait(false);
        var series = question!.Given
            ?? await data.ReadSeriesAsync(request.Stored, CapabilityStudy.Parts, context.CancellationToken).ConfigureAwait(false);
        StudyLog.SeriesStudied(logger, context.Method, series.Count);
        return Answer(CapabilityStudy.Estimate(question.Measurand, series, limits, request.Options));
    }

    public override async Task<MapRollResponse> MapRoll(MapRollRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var question = RollStudy.Read(request, violations);
        FieldFaults.ThrowIfAny(violations);
        var limits = request.SpecificationName is { } name
            ? await data.ReadLimitsAsync(name, question!.Measurand, context.CancellationToken).ConfigureAwait(false)
            : request.Limits;
        var series = question!.Given
            ?? await data.ReadSeriesAsync(request.Stored, RollStudy.Parts, context.CancellationToken).ConfigureAwait(false);
        StudyLog.SeriesStudied(logger, context.Method, series.Count);
        return Answer(RollStudy.Map(question.Measurand, series, limits, request.Options));
    }

    public override async Task<CompareLotsResponse> CompareLots(CompareLotsRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var question = LotStudy.Read(request, violations);
        FieldFaults.ThrowIfAny(violations);
        var tables = question!.Given
            ?? await data.ReadLotsAsync(request.Stored, question.Measurands, context.CancellationToken).ConfigureAwait(false);
        return Answer(LotStudy.Compare(tables, request.Options, context.CancellationToken));
    }

    public override Task<PlanSamplingResponse> PlanSampling(PlanSamplingRequest request, ServerCallContext context) =>
        Task.FromResult(Answer(SamplingStudy.Plan(request)));

    private static TResponse Answer<TResponse>(StudyOutcome<TResponse> outcome)
        where TResponse : class =>
        outcome.IsAccepted ? outcome.Response
        : outcome.FailedPrecondition is { } words ? throw StudyData.Lacking(words)
        : throw FieldFaults.Invalid(outcome.Violations);
}

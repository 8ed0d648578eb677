using ClearView.Contract.Decisions;
using ClearView.Contract.Validation;
using ClearView.Server.Hosting;
using ClearView.Server.Mapping;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>Verdicts, on the wire.</summary>
internal sealed class JudgementGrpcService(
    SpecificationResolver resolver, StoredReadingsJudge storedReadings, OpenStreams openStreams, TimeProvider clock, ILogger<JudgementGrpcService> logger)
    : JudgementService.JudgementServiceBase
{
    public override async Task<JudgeSpecimensResponse> JudgeSpecimens(JudgeSpecimensRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var specification = request.SpecificationChoiceCase switch
        {
            JudgeSpecimensRequest.SpecificationChoiceOneofCase.Specification =>
                await resolver.ResolveAsync(request.Specification, null, "specification", violations, context.CancellationToken).ConfigureAwait(false),
            JudgeSpecimensRequest.SpecificationChoiceOneofCase.SpecificationName =>
                await resolver.FindAsync(request.SpecificationName, violations, context.CancellationToken).ConfigureAwait(false),
            _ => Missing(violations),
        };
        FieldFaults.ThrowIfAny(violations);
        var outcome = SpecimensJudge.Judge(request.Measurements, specification!, clock, context.CancellationToken);
        if (!outcome.IsAccepted)
        {
            DecisionLog.JudgementRefused(logger, outcome.Violations.Length);
            throw FieldFaults.Invalid(outcome.Violations);
        }

        return outcome.Response;
    }

    public override async Task JudgeReadings(
        JudgeReadingsRequest request, IServerStreamWriter<JudgeReadingsResponse> responseStream, ServerCallContext context)
    {
        openStreams.Add(context.GetHttpContext().Response);
        var violations = new Violations();
        var specification = await resolver.FindAsync(request.SpecificationName, violations, context.CancellationToken).ConfigureAwait(false);
        var query = JudgeQueries.Read(request, specification, violations);
        FieldFaults.ThrowIfAny(violations);
        var count = 0L;
        await foreach (var response in storedReadings.JudgeAsync(query, request.Group, specification!, context.CancellationToken).ConfigureAwait(false))
        {
            count++;
            await openStreams.WriteAsync(responseStream, response, context).ConfigureAwait(false);
        }

        DecisionLog.ReadingsJudged(logger, count, specification!.Name!.Name, specification.Name.Version);
    }

    private static ResolvedSpecification? Missing(Violations violations)
    {
        violations.Add("specification_choice", $"was missing; expected specification or specification_name.");
        return null;
    }
}

using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;
using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

using Grpc.Core;

using Evaluation = ClearView.V1.Evaluation;
using MeasuredValue = ClearView.V1.MeasuredValue;

namespace ClearView.Server.Services;

/// <summary>Specifications and references, on the wire.</summary>
internal sealed class SpecificationGrpcService(
    [FromKeyedServices(VersionedKind.Specification)] IVersionedStore specifications,
    [FromKeyedServices(VersionedKind.Reference)] IVersionedStore references,
    IReadingStore readings,
    SpecificationResolver resolver,
    ILogger<SpecificationGrpcService> logger)
    : SpecificationService.SpecificationServiceBase
{
    public override async Task<StoreSpecificationResponse> StoreSpecification(StoreSpecificationRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        DocumentRules.Check(request.Name, request.Description, request.StoredBy, violations);
        var complete = request.Specification?.Clone();
        var taken = complete is null ? [] : await TakeReferencesAsync(complete, violations, context.CancellationToken).ConfigureAwait(false);

        var resolved = await resolver.ResolveAsync(complete, name: null, "specification", violations, context.CancellationToken).ConfigureAwait(false);
        if (resolved is not null)
        {
            CheckLight(taken, resolved.Method.Colour, violations);
        }

        FieldFaults.ThrowIfAny(violations);

        // What was accepted is stored whether or not its sender still waits.
        var outcome = await specifications.StoreAsync(NamedSpecifications.ToEntry(request, resolved!.Wire), CancellationToken.None).ConfigureAwait(false);
        if (!outcome.AlreadyStored)
        {
            DecisionLog.SpecificationStored(logger, request.Name, outcome.Version.Version);
        }

        return new StoreSpecificationResponse
        {
            Specification = NamedSpecifications.ToNamedSpecification(outcome.Version),
            AlreadyStored = outcome.AlreadyStored,
        };
    }

    public override async Task<GetSpecificationResponse> GetSpecification(GetSpecificationRequest request, ServerCallContext context)
    {
        var stored = await FindAsync(
            specifications, "specification", request.SpecificationName?.Name, request.SpecificationName?.Version, "specification_name", context)
            .ConfigureAwait(false);
        return new GetSpecificationResponse { Specification = NamedSpecifications.ToNamedSpecification(stored) };
    }

    public override async Task<ListSpecificationsResponse> ListSpecifications(ListSpecificationsRequest request, ServerCallContext context)
    {
        var page = await ListAsync(
            specifications, VersionedKind.Specification, request.PageSize, request.PageToken, request.AllVersions, context).ConfigureAwait(false);
        return new ListSpecificationsResponse
        {
            Specifications = { page.Versions.Select(NamedSpecifications.ToNamedSpecification) },
            NextPageToken = VersionPages.NextToken(page, VersionedKind.Specification, request.AllVersions),
        };
    }

    public override async Task<StoreReferenceResponse> StoreReference(StoreReferenceRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        DocumentRules.Check(request.Name, request.Description, request.StoredBy, violations);
        if (!ReadingIds.TryRead(request.ReadingId, out var id, out var idViolation))
        {
            violations.Add(idViolation.Field, $"{idViolation.Description}");
        }

        FieldFaults.ThrowIfAny(violations);
        var reading = await readings.RequireAsync(id, context.CancellationToken).ConfigureAwait(false);
        var values = Evaluation.Parser.ParseFrom(reading.Entry.Evaluation.Span).Values.ToDictionary(value => value.Measurand);
        if (!values.TryGetValue(Measurands.CielabL.Id, out var l)
            || !values.TryGetValue(Measurands.CielabA.Id, out var a)
            || !values.TryGetValue(Measurands.CielabB.Id, out var b))
        {
            violations.Add("reading_id", $"{ReadingIds.Write(id)} has no colour; expected a reading of spectral scans.");
            throw FieldFaults.Invalid(violations.ToImmutable());
        }

        var entry = NamedSpecifications.ToEntry(request, ToColour(l, a, b), l.LightAndObserver);
        var outcome = await references.StoreAsync(entry, CancellationToken.None).ConfigureAwait(false);
        if (!outcome.AlreadyStored)
        {
            DecisionLog.ReferenceStored(logger, request.Name, outcome.Version.Version);
        }

        return new StoreReferenceResponse
        {
            Reference = NamedSpecifications.ToNamedReference(outcome.Version),
            AlreadyStored = outcome.AlreadyStored,
        };
    }

    public override async Task<GetReferenceResponse> GetReference(GetReferenceRequest request, ServerCallContext context)
    {
        var stored = await FindAsync(references, "reference", request.ReferenceName?.Name, request.ReferenceName?.Version, "reference_name", context)
            .ConfigureAwait(false);
        return new GetReferenceResponse { Reference = NamedSpecifications.ToNamedReference(stored) };
    }

    public override async Task<ListReferencesResponse> ListReferences(ListReferencesRequest request, ServerCallContext context)
    {
        var page = await ListAsync(references, VersionedKind.Reference, request.PageSize, request.PageToken, request.AllVersions, context)
            .ConfigureAwait(false);
        return new ListReferencesResponse
        {
            References = { page.Versions.Select(NamedSpecifications.ToNamedReference) },
            NextPageToken = VersionPages.NextToken(page, VersionedKind.Reference, request.AllVersions),
        };
    }

    private static CielabColour ToColour(MeasuredValue l, MeasuredValue a, MeasuredValue b) =>
        new() { LStar = l.Value, AStar = a.Value, BStar = b.Value };

    private static async Task<StoredVersion> FindAsync(
        IVersionedStore store, string kind, string? name, uint? version, string field, ServerCallContext context)
    {
        var violations = new Violations();
        MethodNameRules.Check(name ?? "", $"{field}.name", violations);
        FieldFaults.ThrowIfAny(violations);
        return await StoredDocuments.FindAsync(store, kind, name!, version ?? 0, [], context.CancellationToken).ConfigureAwait(false);
    }

    private static async Task<VersionPage> ListAsync(
        IVersionedStore store, VersionedKind kind, int pageSize, string pageToken, bool allVersions, ServerCallContext context)
    {
        var violations = new Violations();
        var query = VersionPages.Read(kind, pageSize, pageToken, allVersions, violations);
        FieldFaults.ThrowIfAny(violations);
        return await store.ListAsync(query, context.CancellationToken).ConfigureAwait(false);
    }

    // Colours of references are copied into the specification, so that a later version of a reference changes nothing.
    private async Task<List<(int Place, NamedReference Reference)>> TakeReferencesAsync(
        Specification specification, Violations violations, CancellationToken cancellationToken)
    {
        List<(int Place, NamedReference Reference)> taken = [];
        for (var i = 0; i < specification.Limits.Count; i++)
        {
            if (specification.Limits[i] is not { ReferenceName: { } name } limit)
            {
                continue;
            }

            var nameFaults = new Violations();
            MethodNameRules.Check(name.Name, $"specification.limits[{i}].reference_name.name", nameFaults);
            if (!nameFaults.IsEmpty)
            {
                continue;
            }

            var stored = await StoredDocuments.FindAsync(references, "reference", name.Name, name.Version, [], cancellationToken).ConfigureAwait(false);
            var reference = NamedSpecifications.ToNamedReference(stored);
            if (limit.ReferenceColour is not null && !limit.ReferenceColour.Equals(reference.Colour))
            {
                violations.Add(
                    $"specification.limits[{i}].reference_colour",
                    $"differs from the colour of the reference \"{name.Name}\"; expected none, or that of the reference.");
            }

            limit.ReferenceName = reference.ReferenceName;
            limit.ReferenceColour = reference.Colour;
            taken.Add((i, reference));
        }

        return taken;
    }

    private static void CheckLight(List<(int Place, NamedReference Reference)> taken, LightAndObserver light, Violations violations)
    {
        foreach (var (place, reference) in taken)
        {
            if (reference.LightAndObserver is { } own && !own.Equals(light))
            {
                violations.Add(
                    $"specification.limits[{place}].reference_name",
                    $"\"{reference.ReferenceName.Name}\" holds for {own.Illuminant} and {own.Observer}; expected the colour pair of the method, {light.Illuminant} and {light.Observer}.");
            }
        }
    }
}

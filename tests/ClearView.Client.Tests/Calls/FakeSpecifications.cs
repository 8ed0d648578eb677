using ClearView.V1;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

/// <summary>Specifications and references that answer as they are told.</summary>
internal sealed class FakeSpecifications(DecisionLog log) : SpecificationService.SpecificationServiceBase
{
    public override Task<StoreSpecificationResponse> StoreSpecification(StoreSpecificationRequest request, ServerCallContext context)
    {
        log.Take(request);
        return Task.FromResult(new StoreSpecificationResponse { AlreadyStored = true });
    }

    public override Task<GetSpecificationResponse> GetSpecification(GetSpecificationRequest request, ServerCallContext context)
    {
        log.Take(request);
        return Task.FromResult(new GetSpecificationResponse { Specification = new NamedSpecification { Description = "found" } });
    }

    public override Task<ListSpecificationsResponse> ListSpecifications(ListSpecificationsRequest request, ServerCallContext context)
    {
        log.Take(request);
        return Task.FromResult(new ListSpecificationsResponse { Specifications = { new NamedSpecification() }, NextPageToken = Next(request.PageToken) });
    }

    public override Task<StoreReferenceResponse> StoreReference(StoreReferenceRequest request, ServerCallContext context)
    {
        log.Take(request);
        return Task.FromResult(new StoreReferenceResponse());
    }

    public override Task<GetReferenceResponse> GetReference(GetReferenceRequest request, ServerCallContext context)
    {
        log.Take(request);
        return Task.FromResult(new GetReferenceResponse { Reference = new NamedReference() });
    }

    public override Task<ListReferencesResponse> ListReferences(ListReferencesRequest request, ServerCallContext context)
    {
        log.Take(request);
        return Task.FromResult(new ListReferencesResponse { References = { new NamedReference() }, NextPageToken = Next(request.PageToken) });
    }

    // Two pages.
    private static string Next(string token) => token.Length == 0 ? "second" : "";
}

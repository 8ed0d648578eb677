using ClearView.Contract.Methods;
using ClearView.Contract.Validation;
using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>What there is to choose from, on the wire.</summary>
internal sealed class CatalogueGrpcService(
    [FromKeyedServices(VersionedKind.Method)] IVersionedStore store, MethodResolver methods, ILogger<CatalogueGrpcService> logger)
    : CatalogueService.CatalogueServiceBase
{
    public override Task<GetCatalogueResponse> GetCatalogue(GetCatalogueRequest request, ServerCallContext context) =>
        Task.FromResult(Catalogue.Build());

    public override async Task<ListMethodsResponse> ListMethods(ListMethodsRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var query = VersionPages.Read(VersionedKind.Method, request.PageSize, request.PageToken, request.AllVersions, violations);
        FieldFaults.ThrowIfAny(violations);

        var afterBuiltIn = query.After is { } after ? BuiltInMethods.Find(after.Name) : null;
        var afterStored = afterBuiltIn is null ? query.After : null;
        var builtIn = afterStored is not null
            ? []
            : BuiltInMethods.All.Skip(afterBuiltIn is null ? 0 : BuiltInMethods.All.IndexOf(afterBuiltIn) + 1)
                .Select(method => method.ToNamedMethod())
                .ToList();

        // One at least, to know whether another page follows.
        var room = Math.Max(1, query.PageSize - builtIn.Count);
        var page = await store.ListAsync(
            query with { PageSize = room, After = afterStored }, context.CancellationToken).ConfigureAwait(false);
        return Fill(request, [.. builtIn, .. page.Versions.Select(NamedMethods.ToNamedMethod)], query.PageSize, page.HasMore);
    }

    public override async Task<GetMethodResponse> GetMethod(GetMethodRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        MethodNameRules.Check(request.MethodName, "method_name", violations);
        FieldFaults.ThrowIfAny(violations);
        return new GetMethodResponse { Method = await methods.FindAsync(request.MethodName, context.CancellationToken).ConfigureAwait(false) };
    }

    public override async Task<StoreMethodResponse> StoreMethod(StoreMethodRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        StoreMethodRules.Check(request, violations);
        FieldFaults.ThrowIfAny(violations);
        if (BuiltInMethods.Find(request.Name) is not null)
        {
            throw new RpcException(new Status(
                StatusCode.AlreadyExists, $"\"{request.Name}\" is the name of a built-in method; nothing was stored. Choose another name."));
        }

        // What was accepted is stored whether or not its sender still waits.
        var outcome = await store.StoreAsync(NamedMethods.ToEntry(request), CancellationToken.None).ConfigureAwait(false);
        if (!outcome.AlreadyStored)
        {
            CatalogueLog.Stored(logger, request.Name, outcome.Version.Version);
        }

        return new StoreMethodResponse { Method = NamedMethods.ToNamedMethod(outcome.Version), AlreadyStored = outcome.AlreadyStored };
    }

    private static ListMethodsResponse Fill(ListMethodsRequest request, List<NamedMethod> candidates, int size, bool hasMore)
    {
        var response = new ListMethodsResponse();
        var bytes = 0L;
        foreach (var method in candidates.Take(size))
        {
            bytes += method.CalculateSize();
            if (bytes > VersionPages.MaxPageBytes && response.Methods.Count > 0)
            {
                break;
            }

            response.Methods.Add(method);
        }

        if (hasMore || response.Methods.Count < candidates.Count)
        {
            var last = response.Methods[^1].MethodName;
            response.NextPageToken = VersionPageTokens.Write(
                new VersionPosition(last.Name, last.Version), VersionedKind.Method, request.AllVersions);
        }

        return response;
    }
}

using ClearView.Contract.Methods;
using ClearView.Contract.Validation;
using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>What there is to choose from, on the wire.</summary>
internal sealed class CatalogueGrpcService(IMethodStore store, MethodResolver methods, ILogger<CatalogueGrpcService> logger)
    : CatalogueService.CatalogueServiceBase
{
    private const int DefaultPageSize = 100;
    private const int MaxPageSize = 1000;

    // Clients accept 4 MB by default; a page ends before that.
    private const int MaxPageBytes = 3_500_000;

    public override Task<GetCatalogueResponse> GetCatalogue(GetCatalogueRequest request, ServerCallContext context) =>
        Task.FromResult(Catalogue.Build());

    public override async Task<ListMethodsResponse> ListMethods(ListMethodsRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        var after = ReadPage(request, violations);
        ThrowIfAny(violations);

        var size = request.PageSize == 0 ? DefaultPageSize : request.PageSize;
        var afterBuiltIn = after is null ? null : BuiltInMethods.Find(after.Name);
        var afterStored = after is not null && afterBuiltIn is null ? new MethodPosition(after.Name, after.Version) : (MethodPosition?)null;
        var builtIn = afterStored is not null
            ? []
            : BuiltInMethods.All.Skip(afterBuiltIn is null ? 0 : BuiltInMethods.All.IndexOf(afterBuiltIn) + 1)
                .Select(method => method.ToNamedMethod())
                .ToList();

        // One at least, to know whether another page follows.
        var room = Math.Max(1, size - builtIn.Count);
        var page = await store.ListAsync(
            new MethodQuery { AllVersions = request.AllVersions, PageSize = room, MaxPayloadBytes = MaxPageBytes, After = afterStored },
            context.CancellationToken).ConfigureAwait(false);
        return Fill(request, [.. builtIn, .. page.Methods.Select(NamedMethods.ToNamedMethod)], size, page.HasMore);
    }

    public override async Task<GetMethodResponse> GetMethod(GetMethodRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        MethodNameRules.Check(request.MethodName, "method_name", violations);
        ThrowIfAny(violations);
        return new GetMethodResponse { Method = await methods.FindAsync(request.MethodName, context.CancellationToken).ConfigureAwait(false) };
    }

    public override async Task<StoreMethodResponse> StoreMethod(StoreMethodRequest request, ServerCallContext context)
    {
        var violations = new Violations();
        StoreMethodRules.Check(request, violations);
        ThrowIfAny(violations);
        if (BuiltInMethods.Find(request.Name) is not null)
        {
            throw new RpcException(new Status(
                StatusCode.AlreadyExists, $"\"{request.Name}\" is the name of a built-in method; nothing was stored. Choose another name."));
        }

        // What was accepted is stored whether or not its sender still waits.
        var outcome = await store.StoreAsync(NamedMethods.ToEntry(request), CancellationToken.None).ConfigureAwait(false);
        if (!outcome.AlreadyStored)
        {
            CatalogueLog.Stored(logger, request.Name, outcome.Method.Version);
        }

        return new StoreMethodResponse { Method = NamedMethods.ToNamedMethod(outcome.Method), AlreadyStored = outcome.AlreadyStored };
    }

    private static MethodName? ReadPage(ListMethodsRequest request, Violations violations)
    {
        if (request.PageSize is < 0 or > MaxPageSize)
        {
            violations.Add("page_size", $"was {request.PageSize}; expected 1 to {MaxPageSize}, or 0 for {DefaultPageSize}.");
        }

        if (request.PageToken.Length == 0)
        {
            return null;
        }

        if (!MethodPageTokens.TryRead(request, out var last, out var problem))
        {
            violations.Add("page_token", $"{problem}");
        }

        return last;
    }

    private static ListMethodsResponse Fill(ListMethodsRequest request, List<NamedMethod> candidates, int size, bool hasMore)
    {
        var response = new ListMethodsResponse();
        var bytes = 0L;
        foreach (var method in candidates.Take(size))
        {
            bytes += method.CalculateSize();
            if (bytes > MaxPageBytes && response.Methods.Count > 0)
            {
                break;
            }

            response.Methods.Add(method);
        }

        if (hasMore || response.Methods.Count < candidates.Count)
        {
            response.NextPageToken = MethodPageTokens.Write(response.Methods[^1].MethodName, request.AllVersions);
        }

        return response;
    }

    private static void ThrowIfAny(Violations violations)
    {
        if (!violations.IsEmpty)
        {
            throw FieldFaults.Invalid(violations.ToImmutable());
        }
    }
}

using System.Globalization;

using ClearView.V1;

using Google.Protobuf;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

/// <summary>A catalogue that answers as it is told; keeps the requests.</summary>
internal sealed class FakeCatalogue : CatalogueService.CatalogueServiceBase
{
    private const int PageSize = 10;

    /// <summary>Calls still to fail.</summary>
    public int CallsToFail { get; set; }

    /// <summary>What failing calls say.</summary>
    public StatusCode Fault { get; set; } = StatusCode.Unavailable;

    /// <summary>Methods that a list has.</summary>
    public int Listed { get; set; }

    /// <summary>Whether the list gives the same page over and over.</summary>
    public bool ListStandsStill { get; set; }

    /// <summary>Requests, in the order in which they came.</summary>
    public List<IMessage> Requests { get; } = [];

    public override Task<GetCatalogueResponse> GetCatalogue(GetCatalogueRequest request, ServerCallContext context)
    {
        Take(request);
        return Task.FromResult(new GetCatalogueResponse { CieDataVersion = "tables 1" });
    }

    public override Task<ListMethodsResponse> ListMethods(ListMethodsRequest request, ServerCallContext context)
    {
        Take(request);
        var first = request.PageToken.Length == 0 || ListStandsStill ? 0 : int.Parse(request.PageToken, CultureInfo.InvariantCulture);
        var next = first + PageSize;
        return Task.FromResult(new ListMethodsResponse
        {
            Methods = { Enumerable.Range(first, Math.Min(PageSize, Listed - first)).Select(i => Named("method-" + i.ToString(CultureInfo.InvariantCulture), 1)) },
            NextPageToken = next < Listed ? next.ToString(CultureInfo.InvariantCulture) : "",
        });
    }

    public override Task<GetMethodResponse> GetMethod(GetMethodRequest request, ServerCallContext context)
    {
        Take(request);
        return Task.FromResult(new GetMethodResponse { Method = Named(request.MethodName.Name, 3) });
    }

    public override Task<StoreMethodResponse> StoreMethod(StoreMethodRequest request, ServerCallContext context)
    {
        Take(request);
        return Task.FromResult(new StoreMethodResponse { Method = Named(request.Name, 4) });
    }

    private static NamedMethod Named(string name, uint version) => new() { MethodName = new MethodName { Name = name, Version = version } };

    private void Take(IMessage request)
    {
        Requests.Add(request);
        if (CallsToFail-- > 0)
        {
            throw new RpcException(new Status(Fault, "told to fail"));
        }
    }
}

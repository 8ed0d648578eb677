using System.Net;
using System.Security.Cryptography.X509Certificates;

using ClearView.Server.Security;
using ClearView.V1;

using Grpc.Core;
using Grpc.Net.Client;

namespace ClearView.Server.Tests.Security;

/// <summary>Callers that show a certificate.</summary>
public sealed class MutualTlsTests : CertificateTests
{
    [Fact]
    public async Task Certificate_OfAKeyByCertificate_OpensWhatItsRoleAllows()
    {
        await using var server = await StartAsync();
        await server.CreateAsync("line-3", Role.Line, ["line 3"], byCertificate: true);

        var call = await CatalogueAsync(server, Authority.Client("line-3"));
        using var channel = server.Server.NewChannel(CertificateFolder.Trusting(Authority, Authority.Client("line-3")));
        await Rpc.FailsAsync(StatusCode.PermissionDenied, new AccessService.AccessServiceClient(channel).ListKeysAsync(new ListKeysRequest(), cancellationToken: Token));

        Assert.Equal(StatusCode.OK, call);
        await server.Revoke("line-3");
        Assert.Equal(StatusCode.Unauthenticated, await CatalogueAsync(server, Authority.Client("line-3")));
    }

    [Fact]
    public async Task Certificate_ThatNamesNoKeyByCertificate_IsNotIdentified()
    {
        await using var server = await StartAsync();
        await server.CreateAsync("lab", Role.Lab);

        Assert.Equal(StatusCode.Unauthenticated, await CatalogueAsync(server, Authority.Client("nobody")));

        // A key with a secret is not opened by its name.
        Assert.Equal(StatusCode.Unauthenticated, await CatalogueAsync(server, Authority.Client("lab")));
        Assert.Equal(StatusCode.Unauthenticated, await CatalogueAsync(server, Authority.Client("administrator")));
    }

    [Fact]
    public async Task Certificate_ThatDoesNotHold_EndsTheHandshake()
    {
        using var other = new TestAuthority("Other authority");
        await using var server = await StartAsync();
        await server.CreateAsync("line-3", Role.Line, ["line 3"], byCertificate: true);

        foreach (var certificate in (X509Certificate2[])[other.Client("line-3"), Authority.ExpiredClient("line-3"), Authority.Server("line-3")])
        {
            // The connection breaks; no status of ours comes.
            Assert.Contains(await CatalogueAsync(server, certificate), (StatusCode[])[StatusCode.Unavailable, StatusCode.Internal]);
        }

        Assert.Equal(StatusCode.OK, await CatalogueAsync(server, Authority.Client("line-3")));
    }

    [Fact]
    public async Task Certificate_ThatExpiresDuringItsConnection_IsNotIdentifiedAnyMore()
    {
        await using var server = await StartAsync();
        await server.CreateAsync("line-3", Role.Line, ["line 3"], byCertificate: true, life: TimeSpan.FromDays(1000));
        using var channel = server.Server.NewChannel(CertificateFolder.Trusting(Authority, Authority.Client("line-3")));
        var catalogue = new CatalogueService.CatalogueServiceClient(channel);
        await catalogue.GetCatalogueAsync(new GetCatalogueRequest(), cancellationToken: Token);

        server.Clock.Advance(TimeSpan.FromDays(366));

        var error = await Rpc.FailsAsync(StatusCode.Unauthenticated, catalogue.GetCatalogueAsync(new GetCatalogueRequest(), cancellationToken: Token));
        Assert.Contains("expired", error.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Authorities_ThatChange_CountForNewConnections()
    {
        using var next = new TestAuthority("Next authority");
        await using var server = await StartAsync();
        await server.CreateAsync("line-3", Role.Line, ["line 3"], byCertificate: true);
        Assert.NotEqual(StatusCode.OK, await CatalogueAsync(server, next.Client("line-3")));

        await File.WriteAllTextAsync(Files.Authorities, next.Pem, Token);

        Assert.Equal(StatusCode.OK, await CatalogueAsync(server, next.Client("line-3")));
        Assert.NotEqual(StatusCode.OK, await CatalogueAsync(server, Authority.Client("line-3")));
    }

    [Fact]
    public async Task ServerBeyondLoopback_AnswersWithTlsAndKeys()
    {
        Files.Put(Authority.Server());
        await using var server = await GuardedServer.StartAsync(configure: options => Files.Secure(options) with { Listen = new IPEndPoint(IPAddress.Any, 0) });
        using var channel = GrpcChannel.ForAddress(
            $"https://127.0.0.1:{server.Server.Address.Port}", new GrpcChannelOptions { HttpHandler = Trusting() });
        var catalogue = new CatalogueService.CatalogueServiceClient(channel);

        await catalogue.GetCatalogueAsync(new GetCatalogueRequest(), GuardedServer.With(server.Administrator), cancellationToken: Token);
        await Rpc.FailsAsync(StatusCode.Unauthenticated, catalogue.GetCatalogueAsync(new GetCatalogueRequest(), cancellationToken: Token));
    }

    [Fact]
    public void Name_IsTheOneCommonName()
    {
        Assert.Equal("line-3", ClientCertificates.NameOf(Authority.Client("line-3")));
        Assert.Null(ClientCertificates.NameOf(Authority.Client("line-3,CN=line-4")));
    }

    private async Task<GuardedServer> StartAsync()
    {
        Files.Put(Authority.Server());
        await File.WriteAllTextAsync(Files.Authorities, Authority.Pem, Token);
        return await GuardedServer.StartAsync(configure: Files.WithClients, handler: Trusting);
    }

    private async Task<StatusCode> CatalogueAsync(GuardedServer server, X509Certificate2 certificate)
    {
        using var channel = server.Server.NewChannel(CertificateFolder.Trusting(Authority, certificate));
        try
        {
            await new CatalogueService.CatalogueServiceClient(channel).GetCatalogueAsync(new GetCatalogueRequest(), cancellationToken: Token);
            return StatusCode.OK;
        }
        catch (RpcException error)
        {
            return error.StatusCode;
        }
    }
}

using System.Net;

using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace ClearView.Client.Tests.Calls;

/// <summary>A server on a free loopback port that answers as a test says.</summary>
internal sealed class FakeServer : IAsyncDisposable
{
    private readonly WebApplication _application;

    private FakeServer(WebApplication application, Uri address)
    {
        _application = application;
        Address = address;
    }

    public Uri Address { get; }

    public static async Task<FakeServer> StartAsync(
        FakeEvaluations? evaluations = null, FakeReadings? readings = null, FakeCatalogue? catalogue = null, DecisionLog? decisions = null)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, 0, listen => listen.Protocols = HttpProtocols.Http2));
        builder.Services.AddGrpc();
        builder.Services.AddSingleton(evaluations ?? new FakeEvaluations());
        builder.Services.AddSingleton(readings ?? new FakeReadings());
        builder.Services.AddSingleton(catalogue ?? new FakeCatalogue());
        builder.Services.AddSingleton(decisions ?? new DecisionLog());
        var application = builder.Build();
        application.MapGrpcService<FakeEvaluations>();
        application.MapGrpcService<FakeReadings>();
        application.MapGrpcService<FakeCatalogue>();
        application.MapGrpcService<FakeSpecifications>();
        application.MapGrpcService<FakeJudgements>();
        application.MapGrpcService<FakeControlCharts>();
        application.MapGrpcService<FakeStudies>();
        await application.StartAsync(TestContext.Current.CancellationToken);
        var addresses = application.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!;
        return new FakeServer(application, new Uri(addresses.Addresses.Single()));
    }

    /// <summary>A client in a hurry.</summary>
    public ClearViewClient Connect(int maxAttempts = 4) => ClearViewClient.Connect(Address, new ClearViewClientOptions
    {
        CallDeadline = TimeSpan.FromSeconds(10),
        InitialBackoff = TimeSpan.FromMilliseconds(5),
        MaxBackoff = TimeSpan.FromMilliseconds(20),
        MaxAttempts = maxAttempts,
    });

    public async ValueTask DisposeAsync() => await _application.DisposeAsync();
}

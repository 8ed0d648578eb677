using System.Net;

using ClearView.Server.Security;

using Grpc.Net.Client;

using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;

namespace ClearView.Benchmarks.Evaluating;

/// <summary>What gRPC itself costs: the server's sockets and its messages, with services that answer at once what they were given.</summary>
internal sealed class EchoServer : IAsyncDisposable
{
    private readonly WebApplication _app;

    private EchoServer(WebApplication app)
    {
        _app = app;
        var addresses = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!;
        Channel = GrpcChannel.ForAddress(addresses.Addresses.Single());
    }

    /// <summary>A connection to it.</summary>
    public GrpcChannel Channel { get; }

    /// <summary>Starts it on a loopback socket.</summary>
    /// <param name="answers">What it answers.</param>
    public static async Task<EchoServer> StartAsync(EchoAnswers answers)
    {
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions());
        builder.WebHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            TransportLimits.Apply(kestrel.Limits);
            kestrel.Listen(IPAddress.Loopback, 0, listen => listen.Protocols = HttpProtocols.Http2);
        });
        builder.Services.AddSingleton(answers);
        builder.Services.AddGrpc();
        var app = builder.Build();
        app.MapGrpcService<EchoEvaluations>();
        app.MapGrpcService<EchoReadings>();
        await app.StartAsync();
        return new EchoServer(app);
    }

    public async ValueTask DisposeAsync()
    {
        Channel.Dispose();
        await _app.StopAsync();
        await _app.DisposeAsync();
    }
}

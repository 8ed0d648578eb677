using ClearView.Records.Sqlite;
using ClearView.Server.Configuration;
using ClearView.Server.Security;
using ClearView.Server.Tests.Hosting;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Grpc.Core;

using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace ClearView.Server.Tests.Security;

/// <summary>A server that asks for keys, with the key of an administrator and a clock that is moved by hand.</summary>
internal sealed class GuardedServer : IAsyncDisposable
{
    private GuardedServer(TestServer server, SettableClock clock, string administrator)
    {
        Server = server;
        Clock = clock;
        Administrator = administrator;
    }

    public TestServer Server { get; }

    public SettableClock Clock { get; }

    /// <summary>Secret of the administrator.</summary>
    public string Administrator { get; }

    public AccessService.AccessServiceClient Keys => new(Server.Channel);

    public static async Task<GuardedServer> StartAsync(
        RecordingLogs? logs = null,
        Func<ServerOptions, ServerOptions>? configure = null,
        Func<HttpMessageHandler>? handler = null,
        Action<IServiceCollection>? replaceServices = null)
    {
        var clock = new SettableClock();
        var server = await TestServer.StartAsync(
            services =>
            {
                services.AddSingleton<TimeProvider>(clock);
                replaceServices?.Invoke(services);
                if (logs is not null)
                {
                    // Everything, what the transport writes at its finest level as well.
                    services.AddSingleton<ILoggerProvider>(logs);
                    services.Configure<LoggerFilterOptions>(filter => filter.Rules.Add(
                        new LoggerFilterRule(typeof(RecordingLogs).FullName, null, LogLevel.Trace, null)));
                }
            },
            LogLevel.None,
            options => (configure?.Invoke(options) ?? options) with { Access = AccessMode.Keys },
            handler);
        await using var store = SqliteStore.Open(server.Store, clock);
        var first = await FirstKey.TryCreateAsync(store, clock, cancellationToken: TestContext.Current.CancellationToken);
        return new GuardedServer(server, clock, first!.Secret);
    }

    public static Metadata With(string secret) => new() { { "authorization", "Bearer " + secret } };

    public async Task<CreateKeyResponse> CreateAsync(
        string name, Role role, IEnumerable<string>? stations = null, bool byCertificate = false, TimeSpan? life = null) => await Keys.CreateKeyAsync(
        new CreateKeyRequest
        {
            Name = name,
            Role = role,
            Stations = { stations ?? [] },
            ByCertificate = byCertificate,
            Description = "made for a test",
            ExpiresAt = life is { } span ? (Clock.GetUtcNow() + span).ToTimestamp() : null,
        },
        With(Administrator),
        cancellationToken: TestContext.Current.CancellationToken);

    /// <summary>A call that every role may make.</summary>
    public AsyncUnaryCall<GetCatalogueResponse> Call(string secret) =>
        Server.Catalogue.GetCatalogueAsync(new GetCatalogueRequest(), With(secret), cancellationToken: TestContext.Current.CancellationToken);

    public AsyncUnaryCall<RevokeKeyResponse> Revoke(string name) => Keys.RevokeKeyAsync(
        new RevokeKeyRequest { Name = name }, With(Administrator), cancellationToken: TestContext.Current.CancellationToken);

    public ValueTask DisposeAsync() => Server.DisposeAsync();
}

using ClearView.Contract;
using ClearView.Records.Model;
using ClearView.Records.Postgres;
using ClearView.Records.Sqlite;
using ClearView.Server.Configuration;
using ClearView.Server.Extracts;
using ClearView.Server.Faults;
using ClearView.Server.Live;
using ClearView.Server.Posting;
using ClearView.Server.Receiving;
using ClearView.Server.Security;
using ClearView.Server.Services;
using ClearView.Server.Watching;

using Grpc.AspNetCore.Server.Model;

using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Microsoft.Extensions.Logging.Console;

namespace ClearView.Server.Hosting;

/// <summary>Puts the web application together.</summary>
internal static class ServerBuilder
{
    /// <summary>Largest message that is accepted, bytes (4 MB).</summary>
    public const int MaxMessageBytes = ReadingPoster.MaxPostBytes;

    private const string TimestampFormat = "yyyy-MM-dd'T'HH:mm:ss.fff'Z' ";

    /// <summary>Builds the application; nothing is opened yet.</summary>
    /// <param name="options">The options.</param>
    /// <param name="replaceServices">Changes services after the defaults are in place.</param>
    public static WebApplication Build(ServerOptions options, Action<IServiceCollection>? replaceServices)
    {
        options.CheckTogether();

        // The empty builder reads no settings of its own, so that only our sources configure the server.
        var builder = WebApplication.CreateEmptyBuilder(new WebApplicationOptions { ApplicationName = "ClearView.Server" });
        AddTransport(builder.WebHost, options);
        AddLogging(builder.Logging, options);
        AddServices(builder.Services, options);
        replaceServices?.Invoke(builder.Services);

        var app = builder.Build();
        app.Use(UnaryDeadlines.ApplyAsync);
        app.Use(app.Services.GetRequiredService<CallerGate>().ApplyAsync);
        app.MapGrpcService<EvaluationGrpcService>();
        app.MapGrpcService<ReadingGrpcService>();
        app.MapGrpcService<CatalogueGrpcService>();
        app.MapGrpcService<SpecificationGrpcService>();
        app.MapGrpcService<JudgementGrpcService>();
        app.MapGrpcService<StudyGrpcService>();
        app.MapGrpcService<ControlChartGrpcService>();
        app.MapGrpcService<AuditGrpcService>();
        app.MapGrpcService<AccessGrpcService>();
        app.MapGrpcHealthChecksService();
        app.MapGrpcReflectionService();
        return app;
    }

    private static void AddTransport(IWebHostBuilder webHost, ServerOptions options) =>
        webHost.UseKestrelCore().ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            TransportLimits.Apply(kestrel.Limits);
            kestrel.Listen(options.Listen, listen =>
            {
                listen.Protocols = HttpProtocols.Http2;
                if (options.Certificate is not null)
                {
                    listen.ApplicationServices.GetRequiredService<TlsIdentity>().Secure(listen);
                }
            });
        });

    private static void AddLogging(ILoggingBuilder logging, ServerOptions options)
    {
        // Log lines go to standard error; standard output belongs to the program that hosts the server.
        logging.AddFilter(null, LogLevel.Warning > options.LogLevel ? LogLevel.Warning : options.LogLevel);
        logging.AddFilter("ClearView", options.LogLevel);

        // Why a start failed is told by whoever started the server, in words and once.
        logging.AddFilter("Microsoft.Extensions.Hosting.Internal.Host", LogLevel.None);
        logging.AddConsole(console => console.LogToStandardErrorThreshold = LogLevel.Trace);
        if (options.LogFormat == LogFormat.Json)
        {
            logging.AddJsonConsole(json =>
            {
                json.UseUtcTimestamp = true;
                json.TimestampFormat = TimestampFormat.TrimEnd();
            });
        }
        else
        {
            logging.AddSimpleConsole(text =>
            {
                text.SingleLine = true;
                text.UseUtcTimestamp = true;
                text.TimestampFormat = TimestampFormat;
                text.ColorBehavior = LoggerColorBehavior.Disabled;
            });
        }
    }

    private static void AddServices(IServiceCollection services, ServerOptions options)
    {
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton<OpenStreams>();
        services.AddSingleton(options);
        services.AddSingleton<TlsIdentity>();
        services.AddSingleton<KeyBook>();
        services.AddSingleton<KeyCache>();
        services.AddSingleton<CallRates>();
        services.AddSingleton<StreamSlots>();
        services.AddSingleton<Authenticator>();
        services.AddSingleton<CallerGate>();
        services.AddSingleton(provider => OpenStore(options, provider.GetRequiredService<TimeProvider>()));
        services.AddSingleton(provider => provider.GetRequiredService<IStore>().Readings);
        services.AddSingleton(provider => provider.GetRequiredService<IStore>().Recorded);
        services.AddSingleton(provider => provider.GetRequiredService<IStore>().Series);
        services.AddSingleton(WatchPace.Usual);
        services.AddSingleton(provider => provider.GetRequiredService<IStore>().Audit);
        services.AddSingleton(provider => provider.GetRequiredService<IStore>().Pictures);
        foreach (var kind in Enum.GetValues<VersionedKind>())
        {
            services.AddKeyedSingleton(kind, (provider, _) => provider.GetRequiredService<IStore>().Documents(kind));
        }

        services.AddSingleton(new ExtractKey(options));
        services.AddSingleton<ExtractWriter>();
        services.AddSingleton<MethodResolver>();
        services.AddSingleton<SpecificationResolver>();
        services.AddSingleton<StoredReadingsJudge>();
        services.AddSingleton<StudyData>();
        services.AddSingleton<LiveCharts>();
        services.AddSingleton<LeftReadings>();
        services.AddSingleton(new RecordingRoom(options.PostRoomBytes));
        services.AddSingleton<ReadingPoster>();
        services.AddSingleton<EvaluateMeasurement>(provider =>
        {
            var clock = provider.GetRequiredService<TimeProvider>();
            return (measurement, method, omitSpectra) => MeasurementEvaluator.Evaluate(measurement, method, clock, omitSpectra);
        });
        services.AddGrpc(grpc =>
        {
            grpc.MaxReceiveMessageSize = MaxMessageBytes;
            grpc.MaxSendMessageSize = null;
            grpc.EnableDetailedErrors = false;
            grpc.Interceptors.Add<FaultInterceptor>();
            grpc.Interceptors.Add<AccessInterceptor>();
        }).AddServiceOptions<ReadingGrpcService>(grpc => grpc.MaxReceiveMessageSize = PostStream.MostUnansweredBytes);
        services.Replace(ServiceDescriptor.Singleton(typeof(IServiceMethodProvider<>), typeof(ReceivingMethodProvider<>)));
        services.AddGrpcReflection();
        services.AddGrpcHealthChecks().AddCheck<StoreHealthCheck>("store");
        services.Configure<HealthCheckPublisherOptions>(publisher =>
        {
            publisher.Delay = TimeSpan.Zero;
            publisher.Period = StoreHealthCheck.Period;
        });
        services.Replace(ServiceDescriptor.Singleton<IHostLifetime, NoSignalsLifetime>());
        services.Configure<HostOptions>(host => host.ShutdownTimeout = options.ShutdownTimeout);
    }

    // The container makes services synchronously; the store is opened once, before calls are taken.
    private static IStore OpenStore(ServerOptions options, TimeProvider clock) => PostgresConnectionString.IsOne(options.Store)
        ? PostgresStore.OpenAsync(options.ConnectionString(), clock).GetAwaiter().GetResult()
        : SqliteStore.Open(options.Store, clock);
}

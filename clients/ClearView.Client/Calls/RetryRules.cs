using Grpc.Core;
using Grpc.Net.Client.Configuration;

namespace ClearView.Client.Calls;

/// <summary>Which calls are repeated, and how soon. Every unary call of the contract may be repeated as it is when UNAVAILABLE.</summary>
internal static class RetryRules
{
    /// <summary>The channel's configuration: jittered back-off, on UNAVAILABLE only.</summary>
    public static ServiceConfig For(ClearViewClientOptions options)
    {
        var config = new ServiceConfig();
        if (options.MaxAttempts > 1)
        {
            config.MethodConfigs.Add(Unary("clearview.v1.EvaluationService", "Evaluate"));
            config.MethodConfigs.Add(Unary("clearview.v1.EvaluationService", "EvaluateSpecimens"));
            config.MethodConfigs.Add(Unary("clearview.v1.CatalogueService", "GetCatalogue"));
            config.MethodConfigs.Add(Unary("clearview.v1.CatalogueService", "ListMethods"));
            config.MethodConfigs.Add(Unary("clearview.v1.CatalogueService", "GetMethod"));
            config.MethodConfigs.Add(Unary("clearview.v1.CatalogueService", "StoreMethod"));
            config.MethodConfigs.Add(Unary("clearview.v1.ReadingService", "PostReading"));
            config.MethodConfigs.Add(Unary("clearview.v1.ReadingService", "GetReading"));
            config.MethodConfigs.Add(Unary("clearview.v1.ReadingService", "ListReadings"));
        }
        return config;

        MethodConfig Unary(string service, string method) => new()
        {
            Names = { new MethodName { Service = service, Method = method } },
            RetryPolicy = new RetryPolicy
            {
                MaxAttempts = options.MaxAttempts,
                InitialBackoff = options.InitialBackoff,
                MaxBackoff = options.MaxBackoff,
                BackoffMultiplier = 2,
                RetryableStatusCodes = { StatusCode.Unavailable },
            },
        };
    }

    /// <summary>The pause before an attempt on a stream, between half and the whole of what doubling gives.</summary>
    /// <param name="options">First and longest pause.</param>
    /// <param name="attempt">Number of the attempt that failed, from 1.</param>
    public static TimeSpan PauseAfter(ClearViewClientOptions options, int attempt)
    {
        var wholeMs = Math.Min(options.InitialBackoff.TotalMilliseconds * Math.Pow(2, attempt - 1), options.MaxBackoff.TotalMilliseconds);
#pragma warning disable CA5394 // Jitter spreads load; it is no secret.
        return TimeSpan.FromMilliseconds(wholeMs * (0.5 + (0.5 * Random.Shared.NextDouble())));
#pragma warning restore CA5394
    }
}

using Google.Rpc;

using Grpc.Core;
using Grpc.Net.Client.Configuration;

namespace ClearView.Client.Calls;

/// <summary>
/// Which calls are repeated, and how soon. Every call of the contract but CreateKey may be repeated as it is when UNAVAILABLE;
/// one that streams its answer is repeated as long as nothing of it has come.
/// </summary>
internal static class RetryRules
{
    private static readonly TimeSpan LongestAsked = TimeSpan.FromMinutes(1);

    /// <summary>The channel's configuration: jittered back-off, on UNAVAILABLE only.</summary>
    public static ServiceConfig For(ClearViewClientOptions options)
    {
        var config = new ServiceConfig();
        if (options.MaxAttempts > 1)
        {
            config.MethodConfigs.Add(Repeated("clearview.v1.EvaluationService", "Evaluate", "EvaluateSpecimens"));
            config.MethodConfigs.Add(Repeated("clearview.v1.CatalogueService", "GetCatalogue", "ListMethods", "GetMethod", "StoreMethod"));
            config.MethodConfigs.Add(Repeated("clearview.v1.ReadingService", "PostReading", "GetReading", "GetPicture", "ListReadings"));
            config.MethodConfigs.Add(Repeated("clearview.v1.SpecificationService",
                "StoreSpecification", "GetSpecification", "ListSpecifications", "StoreReference", "GetReference", "ListReferences"));
            config.MethodConfigs.Add(Repeated("clearview.v1.JudgementService", "JudgeSpecimens", "JudgeReadings"));
            config.MethodConfigs.Add(Repeated("clearview.v1.ControlChartService",
                "StoreControlChart", "ListControlCharts", "GetControlChart", "DrawControlChart"));
            config.MethodConfigs.Add(Repeated("clearview.v1.StudyService", "EstimateCapability", "MapRoll", "CompareLots", "PlanSampling"));
            config.MethodConfigs.Add(Repeated("clearview.v1.AuditService", "VerifyChain", "ListHeads", "ExportExtract"));
            config.MethodConfigs.Add(Repeated("clearview.v1.AccessService", "ListKeys", "RevokeKey"));
        }
        return config;

        MethodConfig Repeated(string service, params string[] methods)
        {
            var calls = new MethodConfig
            {
                RetryPolicy = new RetryPolicy
                {
                    MaxAttempts = options.MaxAttempts,
                    InitialBackoff = options.InitialBackoff,
                    MaxBackoff = options.MaxBackoff,
                    BackoffMultiplier = 2,
                    RetryableStatusCodes = { StatusCode.Unavailable },
                },
            };
            foreach (var method in methods)
            {
                calls.Names.Add(new MethodName { Service = service, Method = method });
            }
            return calls;
        }
    }

    /// <summary>The pause before an attempt on a stream, between half and the whole of what doubling gives.</summary>
    /// <param name="options">First and longest pause.</param>
    /// <param name="attempt">Number of the attempt that failed, from 1.</param>
    public static TimeSpan PauseAfter(ClearViewClientOptions options, int attempt) => PauseAfter(options.InitialBackoff, options.MaxBackoff, attempt);

    /// <summary>The same, and not shorter than the server asks for (google.rpc.RetryInfo), up to a minute.</summary>
    /// <param name="options">First and longest pause.</param>
    /// <param name="attempt">Number of the attempt that failed, from 1.</param>
    /// <param name="fault">How it failed.</param>
    public static TimeSpan PauseAfter(ClearViewClientOptions options, int attempt, ClearViewCallException fault)
    {
        var asked = (fault.InnerException as RpcException)?.GetRpcStatus()?.GetDetail<RetryInfo>()?.RetryDelay?.ToTimeSpan() ?? TimeSpan.Zero;
        var own = PauseAfter(options, attempt);
        return asked <= own ? own : asked < LongestAsked ? asked : LongestAsked;
    }

    /// <summary>The pause before another attempt, between half and the whole of what doubling gives.</summary>
    /// <param name="first">First pause.</param>
    /// <param name="longest">Longest pause.</param>
    /// <param name="attempt">Number of the attempt that failed, from 1.</param>
    public static TimeSpan PauseAfter(TimeSpan first, TimeSpan longest, int attempt)
    {
        var wholeMs = Math.Min(first.TotalMilliseconds * Math.Pow(2, attempt - 1), longest.TotalMilliseconds);
#pragma warning disable CA5394 // Jitter spreads load; it is no secret.
        return TimeSpan.FromMilliseconds(wholeMs * (0.5 + (0.5 * Random.Shared.NextDouble())));
#pragma warning restore CA5394
    }
}

using System.Collections.Immutable;
using System.Diagnostics;

using ClearView.EndToEnd.Tests.Lines;
using ClearView.EndToEnd.Tests.Servers;
using ClearView.V1;

using Google.Protobuf;
using Google.Protobuf.Reflection;

using Grpc.Core;
using Grpc.Health.V1;

namespace ClearView.EndToEnd.Tests.Hostile;

/// <summary>Absurd and damaged messages to every rpc of the contract, for a bounded time and from a fixed seed.</summary>
public sealed class FuzzTests : IDisposable
{
    private const long MostResidentBytes = 1024L * 1024 * 1024;

    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(25);

    private static readonly ImmutableArray<MethodDescriptor> Methods =
    [
        .. typeof(ReadingService).Assembly.GetTypes()
            .Where(type => type.Name.EndsWith("Reflection", StringComparison.Ordinal) && type.Namespace == "ClearView.V1")
            .Select(type => (FileDescriptor)type.GetProperty("Descriptor")!.GetValue(null)!)
            .SelectMany(file => file.Services)
            .OrderBy(service => service.FullName, StringComparer.Ordinal)
            .SelectMany(service => service.Methods),
    ];

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-fuzz-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public async Task Call_AnythingAtAll_IsAnsweredAndTheServerGoesOn(int seed)
    {
        var random = new Random(seed);
        var maker = new MessageMaker(random);
        var mutator = new ByteMutator(random);
        using var server = await ServerProcess.StartAsync(Path.Combine(_folder.FullName, "readings.db"), Token);
        using var channel = server.Connect();
        using var caller = new RawCaller(server.Address);
        var kept = new ReadingMaker("line 1", seed).Next();
        await new ReadingService.ReadingServiceClient(channel).PostReadingAsync(kept, cancellationToken: Token);

        var calls = 0;
        List<string> faults = [];
        for (var since = Stopwatch.StartNew(); since.Elapsed < Longest; calls++)
        {
            var method = Methods[calls % Methods.Length];
            var message = IsStored(method) && random.Next(3) == 0 ? kept.ToByteArray() : maker.Make(method.InputType).ToByteArray();
            var isDamaged = random.Next(2) == 0;
            var status = await caller.CallAsync(method.Service.FullName, method.Name, isDamaged ? mutator.Mutate(message) : message, DeadlineOf(method), Token);
            if (!IsAllowed(status, method))
            {
                faults.Add(FormattableString.Invariant($"call {calls} to {method.FullName}, damaged: {isDamaged}: {status?.ToString() ?? "cut off"}"));
            }
        }

        Assert.True(faults.Count == 0, string.Join(Environment.NewLine, [.. faults.Take(10), await FailuresAsync(server, faults)]));
        Assert.True(calls > 5 * Methods.Length, $"only {calls} calls were made");
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, (await new Health.HealthClient(channel).CheckAsync(new HealthCheckRequest(), cancellationToken: Token)).Status);
        var got = await new ReadingService.ReadingServiceClient(channel).GetReadingAsync(new GetReadingRequest { ReadingId = kept.ReadingId }, cancellationToken: Token);
        Assert.Equal(kept.Measurement, got.Reading.Measurement);
        Assert.InRange(ResidentBytes(server), 1, MostResidentBytes);
        var (exitCode, log) = await server.TerminateAsync();
        Assert.Equal(0, exitCode);
        Assert.DoesNotContain("Unhandled", log, StringComparison.Ordinal);
        Assert.DoesNotContain("fail:", log, StringComparison.Ordinal);
    }

    // What the server's log says of them: without it a fault cannot be found.
    private static async Task<string> FailuresAsync(ServerProcess server, List<string> faults) => faults.Count == 0
        ? ""
        : string.Join(Environment.NewLine, (await server.TerminateAsync()).Log.Split('\n')
            .Where(line => line.Contains("fail:", StringComparison.Ordinal))
            .Select(line => line[..Math.Min(line.Length, 1000)])
            .Take(5));

    private static TimeSpan DeadlineOf(MethodDescriptor method) => method.IsServerStreaming && !method.IsClientStreaming ? TimeSpan.FromMilliseconds(200) : TimeSpan.FromSeconds(20);

    private static bool IsStored(MethodDescriptor method) => method.InputType == PostReadingRequest.Descriptor;

    // Whatever a message holds, the fault is the caller's, and ends no stream of many messages unless it is too large to be read. A watch
    // that finds nothing has no end but its deadline.
    private static bool IsAllowed(StatusCode? status, MethodDescriptor method) => status switch
    {
        StatusCode.Unknown or StatusCode.Internal => false,
        StatusCode.DeadlineExceeded => method.IsServerStreaming && !method.IsClientStreaming,
        null => false,
        _ => !method.IsClientStreaming || status is StatusCode.OK or StatusCode.ResourceExhausted,
    };

    private static long ResidentBytes(ServerProcess server)
    {
        using var process = Process.GetProcessById(server.Id);
        return process.WorkingSet64;
    }
}

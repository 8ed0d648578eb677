using ClearView.V1;

using Google.Protobuf;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

/// <summary>Calls for specifications, verdicts, control charts and studies.</summary>
public class DecisionCallsTests
{
    private static readonly SpecificationName Name = new() { Name = "lidding", Version = 2 };
    private static readonly Specification Specification = new() { Product = "clear lidding 38" };
    private static readonly ControlChart Chart = new() { Kind = ControlChartKind.Ewma };
    private static readonly Guid Id = new("019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11");
    private static readonly Measurement Measurement = new() { Identification = new Identification { Specimen = "F-1" } };

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    /// <summary>Every call whose first request is its only one, with the request that it has to send.</summary>
    public static TheoryData<IMessage, Func<ClearViewClient, Task>> Calls { get; } = new()
    {
        { new StoreSpecificationRequest { Name = "s", Description = "d", Specification = Specification, StoredBy = "QA" }, client => client.StoreSpecificationAsync("s", "d", Specification, "QA", Token) },
        { new GetSpecificationRequest { SpecificationName = Name }, client => client.GetSpecificationAsync(Name, Token) },
        { new StoreReferenceRequest { Name = "r", Description = "d", ReadingId = "019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11", StoredBy = "QA" }, client => client.StoreReferenceAsync("r", "d", Id, "QA", Token) },
        { new GetReferenceRequest { ReferenceName = new ReferenceName { Name = "r" } }, client => client.GetReferenceAsync(new ReferenceName { Name = "r" }, Token) },
        { new JudgeSpecimensRequest { Measurements = { Measurement }, Specification = Specification }, client => client.JudgeSpecimensAsync([Measurement], Specification, Token) },
        { new JudgeSpecimensRequest { Measurements = { Measurement }, SpecificationName = Name }, client => client.JudgeSpecimensAsync([Measurement], Name, Token) },
        { new JudgeReadingsRequest { SpecificationName = Name }, client => CountAsync(client.JudgeReadingsAsync(new JudgeReadingsRequest { SpecificationName = Name }, Token)) },
        { new StoreControlChartRequest { Name = "c", Description = "d", ControlChart = Chart, StoredBy = "QA" }, client => client.StoreControlChartAsync("c", "d", Chart, "QA", Token) },
        { new ListControlChartsRequest { AllVersions = true }, client => CountAsync(client.ListControlChartsAsync(true, Token)) },
        { new GetControlChartRequest { MostPointsCount = 200 }, client => CountAsync(client.GetControlChartAsync(new GetControlChartRequest { MostPointsCount = 200 }, Token)) },
        { new DrawControlChartRequest { ControlChart = Chart }, client => CountAsync(client.DrawControlChartAsync(new DrawControlChartRequest { ControlChart = Chart }, Token)) },
        { new EstimateCapabilityRequest { SpecificationName = Name }, client => client.EstimateCapabilityAsync(new EstimateCapabilityRequest { SpecificationName = Name }, Token) },
        { new MapRollRequest { SpecificationName = Name }, client => client.MapRollAsync(new MapRollRequest { SpecificationName = Name }, Token) },
        { new CompareLotsRequest { Stored = new StoredLots() }, client => client.CompareLotsAsync(new CompareLotsRequest { Stored = new StoredLots() }, Token) },
        { new PlanSamplingRequest { Mean = new MeanSampleSize() }, client => client.PlanSamplingAsync(new PlanSamplingRequest { Mean = new MeanSampleSize() }, Token) },
    };

    [Theory]
    [MemberData(nameof(Calls))]
    public async Task Call_ServerUnavailableAtFirst_IsRepeatedAsItWas(IMessage request, Func<ClearViewClient, Task> call)
    {
        var log = new DecisionLog { CallsToFail = 2 };
        await using var server = await FakeServer.StartAsync(decisions: log);
        await using var client = server.Connect();

        await call(client);

        Assert.Equal([request, request, request], log.Requests);
    }

    [Theory]
    [MemberData(nameof(Calls))]
    public async Task Call_NotFound_IsToldAndNotRepeated(IMessage request, Func<ClearViewClient, Task> call)
    {
        var log = new DecisionLog { CallsToFail = 1, Fault = StatusCode.NotFound };
        await using var server = await FakeServer.StartAsync(decisions: log);
        await using var client = server.Connect();

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => call(client));

        Assert.Equal((StatusCode.NotFound, "told to fail"), (fault.Status, fault.Message));
        Assert.Equal([request], log.Requests);
    }

    [Fact]
    public async Task Lists_FollowThePages()
    {
        await using var server = await FakeServer.StartAsync();
        await using var client = server.Connect();

        Assert.Equal(2, await CountAsync(client.ListSpecificationsAsync(cancellationToken: Token)));
        Assert.Equal(2, await CountAsync(client.ListReferencesAsync(cancellationToken: Token)));
    }

    [Fact]
    public async Task Stream_BrokenAfterItsFirstAnswer_IsToldAndNotTakenUpAgain()
    {
        var log = new DecisionLog { BreaksStreams = true };
        await using var server = await FakeServer.StartAsync(decisions: log);
        await using var client = server.Connect();
        var given = 0;

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(async () =>
        {
            await foreach (var _ in client.JudgeReadingsAsync(new JudgeReadingsRequest(), Token))
            {
                given++;
            }
        });

        Assert.True(fault.IsTransient);
        Assert.Equal(1, given);
        Assert.Single(log.Requests);
    }

    [Fact]
    public async Task Stream_Cancelled_EndsAsCancelled()
    {
        await using var server = await FakeServer.StartAsync();
        await using var client = server.Connect();
        using var stop = new CancellationTokenSource();

        await Assert.ThrowsAnyAsync<OperationCanceledException>(async () =>
        {
            await foreach (var _ in client.JudgeReadingsAsync(new JudgeReadingsRequest(), stop.Token))
            {
                await stop.CancelAsync();
            }
        });
    }

    [Fact]
    public void IdForContent_OfASpecification_DependsOnItsNameAsGiven()
    {
        var one = ReadingId.ForContent(Measurement, Name);

        Assert.Equal(one, ReadingId.ForContent(Measurement.Clone(), Name.Clone()));
        Assert.NotEqual(one, ReadingId.ForContent(Measurement, new SpecificationName { Name = "lidding" }));
        Assert.NotEqual(one, ReadingId.ForContent(Measurement, new Method()));
    }

    private static async Task<int> CountAsync<T>(IAsyncEnumerable<T> items)
    {
        var count = 0;
        await foreach (var _ in items)
        {
            count++;
        }
        return count;
    }
}

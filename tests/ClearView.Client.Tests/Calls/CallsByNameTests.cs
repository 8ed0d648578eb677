using ClearView.V1;

using Google.Protobuf;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

/// <summary>Calls with the name of a method, and evaluations of several specimens.</summary>
public class CallsByNameTests
{
    private static readonly MethodName Name = new() { Name = "film-25", Version = 3 };

    private static readonly Method Method = new() { HazeStandard = HazeStandard.AstmD1003ProcedureB };

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    /// <summary>The calls, with the request that each has to send.</summary>
    public static TheoryData<IMessage, Func<ClearViewClient, Task>> Calls { get; } = new()
    {
        {
            new EvaluateRequest { Measurement = Specimen("S-1"), MethodName = Name, OmitSpectra = true },
            client => client.EvaluateAsync(Specimen("S-1"), Name, omitSpectra: true, Token)
        },
        {
            new EvaluateSpecimensRequest { Measurements = { Specimen("S-1"), Specimen("S-2") }, MethodName = Name },
            client => client.EvaluateSpecimensAsync([Specimen("S-1"), Specimen("S-2")], Name, cancellationToken: Token)
        },
        {
            new EvaluateSpecimensRequest { Measurements = { Specimen("S-1") }, Method = Method, OmitSpectra = true },
            client => client.EvaluateSpecimensAsync([Specimen("S-1")], Method, omitSpectra: true, Token)
        },
    };

    [Theory]
    [MemberData(nameof(Calls))]
    public async Task Evaluation_ServerUnavailableAtFirst_IsRepeatedAsItWas(IMessage request, Func<ClearViewClient, Task> call)
    {
        var evaluations = new FakeEvaluations { CallsToFail = 2 };
        await using var server = await FakeServer.StartAsync(evaluations);
        await using var client = server.Connect();

        await call(client);

        Assert.Equal([request, request, request], evaluations.Requests);
    }

    [Fact]
    public async Task Evaluation_UnknownName_IsToldAndNotRepeated()
    {
        var evaluations = new FakeEvaluations { KnowsNoName = true };
        await using var server = await FakeServer.StartAsync(evaluations);
        await using var client = server.Connect();

        var single = await Assert.ThrowsAsync<ClearViewCallException>(() => client.EvaluateAsync(Specimen("S-1"), Name, true, Token));
        var several = await Assert.ThrowsAsync<ClearViewCallException>(
            () => client.EvaluateSpecimensAsync([Specimen("S-1")], Name, true, Token));

        Assert.All([single, several], fault =>
        {
            Assert.Equal(StatusCode.NotFound, fault.Status);
            Assert.Equal("No method has the name \"film-25\".", fault.Message);
            Assert.False(fault.IsTransient);
        });
        Assert.Equal(2, evaluations.Requests.Count);
    }

    [Fact]
    public async Task EvaluateSpecimensAsync_Answered_GivesOneEvaluationPerMeasurement()
    {
        await using var server = await FakeServer.StartAsync();
        await using var client = server.Connect();

        var response = await client.EvaluateSpecimensAsync([Specimen("S-1"), Specimen("S-2")], Name, cancellationToken: Token);

        Assert.Equal(["S-1", "S-2"], response.Evaluations.Select(evaluation => evaluation.CieDataVersion));
    }

    [Fact]
    public async Task PostAsync_ByName_RepeatsIdAndName()
    {
        var readings = new FakeReadings { CallsToFail = 2 };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = server.Connect();
        var id = ReadingId.New();

        await client.PostAsync(id, new Measurement(), Name, Token);

        Assert.Equal([id.ToString(), id.ToString(), id.ToString()], readings.PostedIds);
        Assert.Equal([Name, Name, Name], readings.PostedNames);
    }

    [Fact]
    public async Task PostAsync_UnknownName_IsToldAndNotRepeated()
    {
        var readings = new FakeReadings { CallsToFail = 1, Fault = StatusCode.NotFound };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = server.Connect();

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => client.PostAsync(ReadingId.New(), new Measurement(), Name, Token));

        Assert.Equal(StatusCode.NotFound, fault.Status);
        Assert.Single(readings.PostedIds);
    }

    private static Measurement Specimen(string name) => new() { Identification = new Identification { Specimen = name } };
}

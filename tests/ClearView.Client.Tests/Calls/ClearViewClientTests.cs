using System.Net;
using System.Net.Sockets;

using ClearView.V1;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

public class ClearViewClientTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task PostAsync_ServerUnavailableAtFirst_RepeatsWithTheSameId()
    {
        var readings = new FakeReadings { CallsToFail = 2 };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = server.Connect();
        var id = ReadingId.New();

        var response = await client.PostAsync(id, new Measurement(), new Method(), Token);

        Assert.Equal(id.ToString(), response.Reading.ReadingId);
        Assert.Equal([id.ToString(), id.ToString(), id.ToString()], readings.PostedIds);
    }

    [Fact]
    public async Task PostAsync_ServerStaysUnavailable_GivesUpAfterTheAttempts()
    {
        var readings = new FakeReadings { CallsToFail = int.MaxValue };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = server.Connect(maxAttempts: 3);

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => client.PostAsync(ReadingId.New(), new Measurement(), new Method(), Token));

        Assert.Equal(StatusCode.Unavailable, fault.Status);
        Assert.True(fault.IsTransient);
        Assert.Equal(3, readings.PostedIds.Count);
    }

    [Theory]
    [InlineData(StatusCode.AlreadyExists)]
    [InlineData(StatusCode.Internal)]
    [InlineData(StatusCode.ResourceExhausted)]
    public async Task PostAsync_AnyOtherFault_IsNotRepeated(StatusCode status)
    {
        var readings = new FakeReadings { CallsToFail = 1, Fault = status };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = server.Connect();

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => client.PostAsync(ReadingId.New(), new Measurement(), new Method(), Token));

        Assert.Equal(status, fault.Status);
        Assert.Contains("told to fail", fault.Message, StringComparison.Ordinal);
        Assert.Single(readings.PostedIds);
    }

    [Fact]
    public async Task PostAsync_FieldsAtFault_AreNamedInTheMessage()
    {
        await using var server = await FakeServer.StartAsync(readings: new FakeReadings { CallsToFail = 1, Fault = StatusCode.InvalidArgument });
        await using var client = server.Connect();

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => client.PostAsync(ReadingId.New(), new Measurement(), new Method(), Token));

        Assert.Equal(["measurement.conditions.aperture_mm", "method.colour"], fault.Violations.Select(violation => violation.Field));
        Assert.Contains("measurement.conditions.aperture_mm: was 0; expected above 0.", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task GetAsync_UnknownReading_SaysSo()
    {
        await using var server = await FakeServer.StartAsync();
        await using var client = server.Connect();

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => client.GetAsync(ReadingId.New(), Token));

        Assert.Equal(StatusCode.NotFound, fault.Status);
        Assert.StartsWith("no reading ", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ListAsync_SeveralPages_GivesEveryReadingOnce()
    {
        await using var server = await FakeServer.StartAsync(readings: new FakeReadings { Listed = 25 });
        await using var client = server.Connect();
        var ids = new List<string>();

        await foreach (var reading in client.ListAsync(new ListReadingsRequest { PageSize = 10 }, Token))
        {
            ids.Add(reading.ReadingId);
        }

        Assert.Equal(Enumerable.Range(0, 25).Select(i => i.ToString(System.Globalization.CultureInfo.InvariantCulture)), ids);
    }

    [Fact]
    public async Task ListAsync_ListThatDoesNotAdvance_IsEnded()
    {
        await using var server = await FakeServer.StartAsync(readings: new FakeReadings { Listed = 25, ListStandsStill = true });
        await using var client = server.Connect();

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(async () =>
        {
            await foreach (var _ in client.ListAsync(new ListReadingsRequest { PageSize = 10 }, Token))
            {
            }
        });

        Assert.Contains("does not advance", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task EvaluateAsync_NobodyListens_SaysWhereAndWhy()
    {
        await using var client = ClearViewClient.Connect(new Uri($"http://127.0.0.1:{FreePort()}"), new ClearViewClientOptions { MaxAttempts = 1 });

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => client.EvaluateAsync(new Measurement(), new Method(), true, Token));

        Assert.Equal(StatusCode.Unavailable, fault.Status);
        Assert.Contains("cannot be reached", fault.Message, StringComparison.Ordinal);
        Assert.Contains("127.0.0.1:", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task EvaluateAsync_NoAnswer_EndsAtTheDeadline()
    {
        await using var server = await FakeServer.StartAsync(new FakeEvaluations { NeverAnswers = true });
        await using var client = ClearViewClient.Connect(server.Address, new ClearViewClientOptions { CallDeadline = TimeSpan.FromMilliseconds(200) });

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => client.EvaluateAsync(new Measurement(), new Method(), true, Token));

        Assert.Equal(StatusCode.DeadlineExceeded, fault.Status);
        Assert.True(fault.IsTransient);
    }

    [Fact]
    public void Connect_AddressThatIsNone_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => ClearViewClient.Connect(new Uri("ftp://127.0.0.1")));
        Assert.Throws<ArgumentException>(() => ClearViewClient.Connect(new Uri("relative", UriKind.Relative)));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(6)]
    public void Connect_AttemptsOutOfRange_AreRefused(int attempts) => Assert.Throws<ArgumentOutOfRangeException>(
        () => ClearViewClient.Connect(new Uri("http://127.0.0.1:1"), new ClearViewClientOptions { MaxAttempts = attempts }));

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}

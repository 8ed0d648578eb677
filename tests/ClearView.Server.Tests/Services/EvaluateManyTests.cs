using ClearView.Contract.Tests;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

public sealed class EvaluateManyTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task EvaluateMany_GoodAndBad_AnswersEachInOrder()
    {
        await using var server = await TestServer.StartAsync();
        using var call = server.Evaluations.EvaluateMany(cancellationToken: Token);
        const int count = 300;
        var sending = Task.Run(
            async () =>
            {
                for (var i = 0; i < count; i++)
                {
                    await call.RequestStream.WriteAsync(Request(i), Token);
                }

                await call.RequestStream.CompleteAsync();
            },
            Token);

        List<EvaluateManyResponse> responses = [];
        await foreach (var response in call.ResponseStream.ReadAllAsync(Token))
        {
            responses.Add(response);
        }

        await sending;
        Assert.Equal(StatusCode.OK, call.GetStatus().StatusCode);
        Assert.Equal(Enumerable.Range(0, count).Select(i => "specimen " + i), responses.Select(response => response.CorrelationId));
        for (var i = 0; i < count; i++)
        {
            if (IsBad(i))
            {
                Assert.Contains("measurement.conditions.aperture_mm", responses[i].Refusal.FieldViolations.Select(violation => violation.Field));
                Assert.Contains("measurement.conditions.instrument", responses[i].Refusal.FieldViolations.Select(violation => violation.Field));
            }
            else
            {
                Assert.Equal(i % 2 == 0, responses[i].Evaluation.Spectra is null);
                Assert.NotEmpty(responses[i].Evaluation.Values);
            }
        }
    }

    [Fact]
    public async Task EvaluateMany_CorrelationIdTooLong_IsRefusedBesideTheOtherFaults()
    {
        await using var server = await TestServer.StartAsync();
        using var call = server.Evaluations.EvaluateMany(cancellationToken: Token);
        var request = Request(0);
        request.CorrelationId = new string('x', 101);
        request.Measurement.Conditions.Operator = "";

        await call.RequestStream.WriteAsync(request, Token);
        Assert.True(await call.ResponseStream.MoveNext(Token));

        Assert.Equal(
            ["correlation_id", "measurement.conditions.operator"],
            call.ResponseStream.Current.Refusal.FieldViolations.Select(violation => violation.Field));
    }

    [Fact]
    public async Task EvaluateMany_MessageAbove4Megabytes_EndsTheStreamWithResourceExhausted()
    {
        await using var server = await TestServer.StartAsync();
        using var call = server.Evaluations.EvaluateMany(cancellationToken: Token);
        var request = Request(1);
        request.Measurement.Scans.Normalised.TotalTransmittance.Add(Enumerable.Repeat(0.5, 600_000));

        await call.RequestStream.WriteAsync(Request(1), Token);
        Assert.True(await call.ResponseStream.MoveNext(Token));

        // The server refuses by the announced length, which may cut the rest of the message off.
        var sending = call.RequestStream.WriteAsync(request, Token);
        var error = await Assert.ThrowsAsync<RpcException>(() => call.ResponseStream.MoveNext(Token));
        await Record.ExceptionAsync(() => sending);

        Assert.Equal(StatusCode.ResourceExhausted, error.StatusCode);
    }

    [Fact]
    public async Task EvaluateMany_ClientCancels_IsCancelledAndTheServerGoesOn()
    {
        await using var server = await TestServer.StartAsync();

        await DuplexEnds.CancelAsync(cancel => server.Evaluations.EvaluateMany(cancellationToken: cancel), Request(1));

        var request = Request(1);
        await server.Evaluations.EvaluateAsync(
            new EvaluateRequest { Measurement = request.Measurement, Method = request.Method }, cancellationToken: Token);
    }

    [Fact]
    public async Task EvaluateMany_ServerStops_EndsWithUnavailable()
    {
        await using var server = await TestServer.StartAsync();
        using var call = server.Evaluations.EvaluateMany(cancellationToken: Token);

        await DuplexEnds.StopAsync(server, call, Request(1));
    }

    [Fact]
    public async Task EvaluateMany_ServerStopsUnderABusyClient_EndsWithUnavailable()
    {
        await using var server = await TestServer.StartAsync();
        using var call = server.Evaluations.EvaluateMany(cancellationToken: Token);

        await DuplexEnds.StopWhileSendingAsync(server, call, Request(1));
    }

    private static bool IsBad(int number) => number % 7 == 3;

    private static EvaluateManyRequest Request(int number)
    {
        var request = new EvaluateManyRequest
        {
            CorrelationId = "specimen " + number,
            Measurement = WireExamples.Normalised(),
            Method = WireExamples.Method(),
            OmitSpectra = number % 2 == 0,
        };
        if (IsBad(number))
        {
            request.Measurement.Conditions.ApertureMm = 0;
            request.Measurement.Conditions.Instrument = "";
        }

        return request;
    }
}

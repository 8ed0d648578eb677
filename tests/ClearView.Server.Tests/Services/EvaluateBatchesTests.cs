using ClearView.Contract.Methods;
using ClearView.Contract.Tests;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

public sealed class EvaluateBatchesTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task EvaluateBatches_GoodAndBad_AnswersEachInItsPlace()
    {
        await using var server = await TestServer.StartAsync();
        EvaluateBatchesRequest[] batches = [.. Enumerable.Range(0, 40).Select(i => Batch(i, specimens: 2 + (i % 5)))];

        var responses = await RunAsync(server, batches);

        Assert.Equal(batches.Select(batch => batch.CorrelationId), responses.Select(response => response.CorrelationId));
        for (var i = 0; i < batches.Length; i++)
        {
            Assert.Null(responses[i].Refusal);
            Assert.Equal(batches[i].Measurements.Count, responses[i].Outcomes.Count);
            for (var specimen = 0; specimen < batches[i].Measurements.Count; specimen++)
            {
                var outcome = responses[i].Outcomes[specimen];
                if (IsBad(i, specimen))
                {
                    Assert.Equal(
                        [$"measurements[{specimen}].conditions.aperture_mm"], outcome.Refusal.FieldViolations.Select(violation => violation.Field));
                }
                else
                {
                    var alone = await server.Evaluations.EvaluateAsync(
                        new EvaluateRequest
                        {
                            Measurement = batches[i].Measurements[specimen],
                            Method = batches[i].Method,
                            OmitSpectra = batches[i].OmitSpectra,
                        },
                        cancellationToken: Token);
                    Assert.Equal(alone.Evaluation, outcome.Evaluation);
                    Assert.Equal(batches[i].OmitSpectra, outcome.Evaluation.Spectra is null);
                }
            }
        }
    }

    [Fact]
    public async Task EvaluateBatches_BatchAtFault_IsRefusedAndTheStreamGoesOn()
    {
        await using var server = await TestServer.StartAsync();
        var withoutMethod = Batch(1);
        withoutMethod.Method = null;
        var wrongMethod = Batch(2);
        wrongMethod.Method.HazeStandard = HazeStandard.Unspecified;
        var unknownName = Batch(3);
        unknownName.MethodName = new MethodName { Name = "no-such-method" };
        var tooMany = Batch(4);
        tooMany.Measurements.AddRange(Enumerable.Repeat(tooMany.Measurements[0], 200));
        var longIdentifier = Batch(5);
        longIdentifier.CorrelationId = new string('x', 101);
        var empty = Batch(6, specimens: 0);

        var responses = await RunAsync(server, [withoutMethod, wrongMethod, unknownName, tooMany, longIdentifier, empty, Batch(7)]);

        Assert.Equal(
            ["method_choice", "method.haze_standard", "method_name", "measurements", "correlation_id", "measurements"],
            responses.Take(6).Select(response => Assert.Single(response.Refusal.FieldViolations).Field));
        Assert.All(responses.Take(6), response => Assert.Empty(response.Outcomes));
        Assert.Contains("had 201 measurements; expected 1 to 200", responses[3].Refusal.FieldViolations[0].Description, StringComparison.Ordinal);
        Assert.NotNull(responses[6].Outcomes[0].Evaluation);
    }

    [Fact]
    public async Task EvaluateBatches_MethodChangesWithinTheStream_EachBatchHasItsOwn()
    {
        await using var server = await TestServer.StartAsync();
        var other = Batch(1);
        other.Method.Luminous.Illuminant = "A";
        var named = Batch(2);
        named.MethodName = new MethodName { Name = BuiltInMethods.All[0].Name };

        var responses = await RunAsync(server, [Batch(0), other, Batch(2), named, named, Batch(0)]);

        Assert.Equal(["C", "A", "C"], responses.Take(3).Select(response => response.Outcomes[0].Evaluation.Method.Luminous.Illuminant));
        Assert.All(responses.Skip(3).Take(2), response => Assert.Equal(named.MethodName.Name, response.Outcomes[0].Evaluation.MethodName.Name));
        Assert.Null(responses[5].Outcomes[0].Evaluation.MethodName);
    }

    [Fact]
    public async Task EvaluateBatches_NothingFollows_IsAnsweredAtOnce()
    {
        await using var server = await TestServer.StartAsync();
        using var call = server.Evaluations.EvaluateBatches(cancellationToken: Token);
        for (var i = 0; i < 3; i++)
        {
            await call.RequestStream.WriteAsync(Batch(i), Token);

            Assert.True(await call.ResponseStream.MoveNext(Token).WaitAsync(TimeSpan.FromSeconds(30), Token));
            Assert.Equal(Batch(i).CorrelationId, call.ResponseStream.Current.CorrelationId);
        }
    }

    [Fact]
    public async Task EvaluateBatches_ClientCancels_IsCancelledAndTheServerGoesOn()
    {
        await using var server = await TestServer.StartAsync();

        await DuplexEnds.CancelAsync(cancel => server.Evaluations.EvaluateBatches(cancellationToken: cancel), Batch(1));

        Assert.Single(await RunAsync(server, [Batch(2)]));
    }

    [Fact]
    public async Task EvaluateBatches_ServerStops_EndsWithUnavailable()
    {
        await using var server = await TestServer.StartAsync();
        using var call = server.Evaluations.EvaluateBatches(cancellationToken: Token);

        await DuplexEnds.StopAsync(server, call, Batch(1));
    }

    [Fact]
    public async Task EvaluateBatches_ServerStopsUnderABusyClient_EndsWithUnavailable()
    {
        await using var server = await TestServer.StartAsync();
        using var call = server.Evaluations.EvaluateBatches(cancellationToken: Token);

        await DuplexEnds.StopWhileSendingAsync(server, call, Batch(1));
    }

    private static async Task<List<EvaluateBatchesResponse>> RunAsync(TestServer server, EvaluateBatchesRequest[] batches)
    {
        using var call = server.Evaluations.EvaluateBatches(cancellationToken: Token);
        var sending = Task.Run(
            async () =>
            {
                foreach (var batch in batches)
                {
                    await call.RequestStream.WriteAsync(batch, Token);
                }

                await call.RequestStream.CompleteAsync();
            },
            Token);
        List<EvaluateBatchesResponse> responses = [];
        await foreach (var response in call.ResponseStream.ReadAllAsync(Token))
        {
            responses.Add(response);
        }

        await sending;
        Assert.Equal(StatusCode.OK, call.GetStatus().StatusCode);
        return responses;
    }

    private static bool IsBad(int batch, int specimen) => (batch + specimen) % 7 == 3;

    private static EvaluateBatchesRequest Batch(int number, int specimens = 1)
    {
        var request = new EvaluateBatchesRequest { CorrelationId = $"batch {number}", Method = WireExamples.Method(), OmitSpectra = number % 2 == 0 };
        for (var specimen = 0; specimen < specimens; specimen++)
        {
            var measurement = WireExamples.Normalised();
            measurement.Conditions.ApertureMm = specimens > 1 && IsBad(number, specimen) ? 0 : 25.4;
            request.Measurements.Add(measurement);
        }

        return request;
    }
}

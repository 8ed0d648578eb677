using ClearView.Contract;
using ClearView.Contract.Tests;
using ClearView.Server.Services;
using ClearView.V1;

using Grpc.Core;

using Microsoft.Extensions.DependencyInjection;

namespace ClearView.Server.Tests.Services;

public sealed class EvaluateTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Evaluate_SoundMeasurement_GivesWhatTheEvaluatorGives()
    {
        await using var server = await TestServer.StartAsync();
        var measurement = WireExamples.Sphere();
        var expected = MeasurementEvaluator.Evaluate(measurement, WireExamples.Method(), WireExamples.Clock).Evaluation;

        var response = await server.Evaluations.EvaluateAsync(
            new EvaluateRequest { Measurement = measurement, Method = WireExamples.Method() }, cancellationToken: Token);

        Assert.Equal(expected, response.Evaluation);
        Assert.NotNull(response.Evaluation.Spectra);
    }

    [Fact]
    public async Task Evaluate_OmitSpectra_LeavesOnlyTheSpectraOut()
    {
        await using var server = await TestServer.StartAsync();
        var request = new EvaluateRequest { Measurement = WireExamples.Sphere(), Method = WireExamples.Method() };
        var full = await server.Evaluations.EvaluateAsync(request, cancellationToken: Token);
        request.OmitSpectra = true;

        var response = await server.Evaluations.EvaluateAsync(request, cancellationToken: Token);

        full.Evaluation.Spectra = null;
        Assert.Equal(full.Evaluation, response.Evaluation);
    }

    [Fact]
    public async Task Evaluate_SeveralFaults_NamesAllOfThemAtOnce()
    {
        await using var server = await TestServer.StartAsync();
        var measurement = WireExamples.Normalised();
        measurement.Conditions.ApertureMm = -1;
        measurement.Conditions.Operator = "";
        measurement.Identification.Specimen = "";
        measurement.Scans.Normalised.TotalTransmittance[3] = double.NaN;
        var method = WireExamples.Method();
        method.Luminous.Illuminant = "moonlight";

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument,
            server.Evaluations.EvaluateAsync(new EvaluateRequest { Measurement = measurement, Method = method }, cancellationToken: Token));

        Assert.Contains("measurement.conditions.aperture_mm", faults.Keys);
        Assert.Contains("measurement.conditions.operator", faults.Keys);
        Assert.Contains("measurement.identification.specimen", faults.Keys);
        Assert.Contains("method.luminous.illuminant", faults.Keys);
        Assert.Contains(faults.Keys, field => field.StartsWith("measurement.scans.normalised.total_transmittance", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Evaluate_Nothing_IsInvalidArgument()
    {
        await using var server = await TestServer.StartAsync();

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument, server.Evaluations.EvaluateAsync(new EvaluateRequest(), cancellationToken: Token));

        Assert.Contains("measurement", faults.Keys);
        Assert.Contains(faults.Keys, field => field.StartsWith("method", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Evaluate_VeryManyAndLongFaults_StayWithinWhatTrailersCarry()
    {
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<EvaluateMeasurement>((_, _, _) =>
        {
            var measurement = WireExamples.Normalised();
            measurement.Conditions.Operator = new string('µ', 1000);
            measurement.Scans.Normalised.TotalTransmittance.Clear();
            measurement.Scans.Normalised.TotalTransmittance.Add(Enumerable.Repeat(double.NaN, 43));
            return MeasurementEvaluator.Evaluate(measurement, (Method?)null, WireExamples.Clock);
        }));

        var error = await Rpc.FailsAsync(
            StatusCode.InvalidArgument, server.Evaluations.EvaluateAsync(new EvaluateRequest(), cancellationToken: Token));

        Assert.True(error.Trailers.Sum(entry => entry.IsBinary ? entry.ValueBytes.Length * 4 / 3 : entry.Value.Length) < 8192);
        Assert.NotNull(error.GetRpcStatus());
    }

    [Fact]
    public async Task Evaluate_MessageAbove4Megabytes_IsResourceExhausted()
    {
        await using var server = await TestServer.StartAsync();
        var measurement = WireExamples.Normalised();
        measurement.Scans.Normalised.TotalTransmittance.Add(Enumerable.Repeat(0.5, 600_000));

        await Rpc.FailsAsync(
            StatusCode.ResourceExhausted,
            server.Evaluations.EvaluateAsync(new EvaluateRequest { Measurement = measurement, Method = WireExamples.Method() }, cancellationToken: Token));
    }

    [Fact]
    public async Task Evaluate_UnexpectedFailure_IsInternalWithoutDetail()
    {
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<EvaluateMeasurement>(
            (_, _, _) => throw new InvalidOperationException("the secret of the server")));

        var error = await Rpc.FailsAsync(
            StatusCode.Internal, server.Evaluations.EvaluateAsync(new EvaluateRequest(), cancellationToken: Token));

        Assert.DoesNotContain("secret", error.ToString(), StringComparison.Ordinal);
    }
}

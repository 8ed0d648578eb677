using ClearView.Contract;
using ClearView.Contract.Tests;
using ClearView.Records.Model;
using ClearView.V1;

using Google.Protobuf;

using Grpc.Core;

using Microsoft.Extensions.DependencyInjection;

namespace ClearView.Server.Tests.Services;

public sealed class PostReadingTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Post_New_IsStoredWithItsRawScansBitForBit()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request();
        var random = new Random(11);
        var scans = request.Measurement.Scans.Sphere;
        for (var i = 0; i < scans.TotalReading.Count; i++)
        {
            scans.TotalReading[i] = 850 + random.NextDouble() * 50;
            scans.InstrumentScatterReading[i] = i == 0 ? -0.0 : random.NextDouble();
        }

        request.Measurement.Identification.Line = "line 3 — Süd";
        request.Measurement.Identification.Web = new WebPosition { AcrossMm = 0, AlongM = 1250.5 };
        request.Measurement.Conditions.ThicknessUm = 25;
        request.Measurement.MeasuredAt.Nanos = 123_456_789;

        var posted = await server.Readings.PostReadingAsync(request, cancellationToken: Token);
        var got = await server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = request.ReadingId }, cancellationToken: Token);

        Assert.False(posted.AlreadyStored);
        Assert.Equal(posted.Reading, got.Reading);
        Assert.Equal(request.Measurement.ToByteString(), got.Reading.Measurement.ToByteString());
        Assert.Equal(request.Method.ToByteString(), got.Reading.Method.ToByteString());
        Assert.Equal(
            MeasurementEvaluator.Evaluate(request.Measurement, request.Method, WireExamples.Clock).Evaluation, got.Reading.Evaluation);
        Assert.Equal(WireExamples.Clock.GetUtcNow(), got.Reading.RecordedAt.ToDateTimeOffset());
        Assert.NotEmpty(got.Reading.SoftwareVersion);
    }

    [Fact]
    public async Task Post_SameAgain_GivesTheSameAnswer()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request();
        var first = await server.Readings.PostReadingAsync(request, cancellationToken: Token);
        request.ReadingId = request.ReadingId.ToUpperInvariant();

        var second = await server.Readings.PostReadingAsync(request, cancellationToken: Token);

        Assert.True(second.AlreadyStored);
        Assert.Equal(first.Reading, second.Reading);
    }

    [Fact]
    public async Task Post_ManyTimesAtOnce_IsStoredOnce()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request();

        var answers = await Task.WhenAll(Enumerable.Range(0, 20).Select(
            _ => server.Readings.PostReadingAsync(request, cancellationToken: Token).ResponseAsync));

        Assert.Equal(1, answers.Count(answer => !answer.AlreadyStored));
        Assert.Single(answers.Select(answer => answer.Reading).Distinct());
    }

    [Fact]
    public async Task Post_SameIdOtherBody_IsAlreadyExistsAndSaysWhatDiffers()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request();
        await server.Readings.PostReadingAsync(request, cancellationToken: Token);
        var other = request.Clone();
        other.Measurement.Conditions.ApertureMm = 10;
        other.Measurement.Scans.Sphere.TotalReading[5] = 901;
        other.Measurement.Scans.Sphere.TotalReading[7] = 902;
        other.Method.Colour.Illuminant = "C";

        var call = server.Readings.PostReadingAsync(other, cancellationToken: Token);
        var differences = await Rpc.FaultsAsync(StatusCode.AlreadyExists, call);

        Assert.Equal(
            new Dictionary<string, string>
            {
                ["measurement.conditions.aperture_mm"] = "stored 25.4, posted 10.",
                ["measurement.scans.sphere.total_reading[5]"] = "stored 900, posted 901; 2 of 43 values differ.",
                ["method.colour.illuminant"] = "stored \"D65\", posted \"C\".",
            },
            differences);
        Assert.Contains("measurement.conditions.aperture_mm: stored 25.4, posted 10", call.GetStatus().Detail, StringComparison.Ordinal);
        var stored = await server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = request.ReadingId }, cancellationToken: Token);
        Assert.Equal(request.Measurement, stored.Reading.Measurement);
    }

    [Theory]
    [InlineData("")]
    [InlineData("reading 1")]
    [InlineData("00000000-0000-0000-0000-000000000000")]
    [InlineData("{0198f2a4-7c00-7000-8000-00000000001a}")]
    [InlineData("0198f2a47c0070008000000000000001")]
    [InlineData(" 198f2a4-7c00-7000-8000-00000000001 ")]
    public async Task Post_BadId_IsNamedBesideTheOtherFaults(string id)
    {
        await using var server = await TestServer.StartAsync();
        var request = Request();
        request.ReadingId = id;
        request.Measurement.Conditions.ApertureMm = 0;

        var faults = await Rpc.FaultsAsync(StatusCode.InvalidArgument, server.Readings.PostReadingAsync(request, cancellationToken: Token));

        Assert.Equal(["measurement.conditions.aperture_mm", "reading_id"], faults.Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Post_StoreFails_IsUnavailable()
    {
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<IReadingStore>(new FailingStore()));

        var error = await Rpc.FailsAsync(StatusCode.Unavailable, server.Readings.PostReadingAsync(Request(), cancellationToken: Token));

        Assert.DoesNotContain("disk", error.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Post_MessageAbove4Megabytes_IsResourceExhausted()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request();
        request.Measurement.Scans.Sphere.TotalReading.Add(Enumerable.Repeat(0.5, 600_000));

        await Rpc.FailsAsync(StatusCode.ResourceExhausted, server.Readings.PostReadingAsync(request, cancellationToken: Token));
    }

    [Fact]
    public async Task Get_Unknown_IsNotFound()
    {
        await using var server = await TestServer.StartAsync();

        await Rpc.FailsAsync(
            StatusCode.NotFound,
            server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = Guid.CreateVersion7().ToString() }, cancellationToken: Token));
    }

    [Fact]
    public async Task Get_BadId_IsInvalidArgument()
    {
        await using var server = await TestServer.StartAsync();

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument,
            server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = "7" }, cancellationToken: Token));

        Assert.Equal(["reading_id"], faults.Keys);
    }

    private static PostReadingRequest Request() => new()
    {
        ReadingId = "0198f2a4-7c00-7000-8000-00000000001a",
        Measurement = WireExamples.Sphere(),
        Method = WireExamples.Method(),
    };
}

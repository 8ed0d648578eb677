using ClearView.Contract.Tests;
using ClearView.Contract.Tests.Pictures;
using ClearView.V1;

using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

/// <summary>Origin, correction and picture of a post.</summary>
public sealed class PostPartsTests
{
    private const string First = "0198f2a4-7c00-7000-8000-00000000001a";
    private const string Second = "0198f2a4-7c00-7000-8000-00000000001b";
    private const string Third = "0198f2a4-7c00-7000-8000-00000000001c";

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Origin_IsKeptAndCompletedByTheServer()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request(First);
        request.Origin = Origin();

        await server.Readings.PostReadingAsync(request, cancellationToken: Token);
        var reading = await GetAsync(server, First);

        Assert.Equal(Origin(), reading.Origin.Posted);
        Assert.Contains("127.0.0.1", reading.Origin.Peer, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Origin_OfARepeatedPost_LetsTheFirstStand()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request(First);
        request.Origin = Origin();
        await server.Readings.PostReadingAsync(request, cancellationToken: Token);
        request.Origin = new Origin { Person = "somebody else" };

        var again = await server.Readings.PostReadingAsync(request, cancellationToken: Token);

        Assert.True(again.AlreadyStored);
        Assert.Equal(Origin(), again.Reading.Origin.Posted);
    }

    [Fact]
    public async Task Parts_AtFault_AreAllNamed()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request(First);
        request.Picture = ByteString.CopyFromUtf8("no picture");
        request.Corrects = new Correction { ReadingId = First };
        request.Origin = new Origin
        {
            Person = new string('x', 101),
            Station = "a\nb",
            InstrumentState = new InstrumentState
            {
                CalibratedAt = new Timestamp { Seconds = -1 },
                CheckResult = (CheckResult)9,
                LampHours = -1,
                InternalTemperatureC = double.NaN,
                Remarks = new string('x', 201),
            },
        };

        var faults = await Rpc.FaultsAsync(StatusCode.InvalidArgument, server.Readings.PostReadingAsync(request, cancellationToken: Token));

        Assert.Equal(
            [
                "corrects.person", "corrects.reading_id", "corrects.reason",
                "origin.instrument_state.calibrated_at", "origin.instrument_state.check_result", "origin.instrument_state.internal_temperature_c",
                "origin.instrument_state.lamp_hours", "origin.instrument_state.remarks", "origin.person", "origin.station", "picture",
            ],
            faults.Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Correction_MarksTheEarlierReading()
    {
        await using var server = await TestServer.StartAsync();
        await server.Readings.PostReadingAsync(Request(First), cancellationToken: Token);

        var posted = await server.Readings.PostReadingAsync(Correcting(Second, First), cancellationToken: Token);
        var again = await server.Readings.PostReadingAsync(Correcting(Second, First), cancellationToken: Token);

        Assert.Equal(Correcting(Second, First).Corrects, posted.Reading.Corrects);
        Assert.True(again.AlreadyStored);
        Assert.Equal(Second, (await GetAsync(server, First)).SupersededBy);
        var listed = await server.Readings.ListReadingsAsync(new ListReadingsRequest(), cancellationToken: Token);
        Assert.Equal([Second, ""], listed.Readings.Select(reading => reading.SupersededBy));
    }

    [Fact]
    public async Task Correction_OfWhatIsSuperseded_NamesTheOneToCorrect()
    {
        await using var server = await TestServer.StartAsync();
        await server.Readings.PostReadingAsync(Request(First), cancellationToken: Token);
        await server.Readings.PostReadingAsync(Correcting(Second, First), cancellationToken: Token);

        var error = await Rpc.FailsAsync(StatusCode.FailedPrecondition, server.Readings.PostReadingAsync(Correcting(Third, First), cancellationToken: Token));

        Assert.Contains(Second, error.Status.Detail, StringComparison.Ordinal);
        await Rpc.FailsAsync(StatusCode.NotFound, server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = Third }, cancellationToken: Token));
    }

    [Fact]
    public async Task Correction_OfWhatIsNotStored_IsNotFound()
    {
        await using var server = await TestServer.StartAsync();

        var error = await Rpc.FailsAsync(StatusCode.NotFound, server.Readings.PostReadingAsync(Correcting(Second, First), cancellationToken: Token));

        Assert.Contains(First, error.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Correction_SameIdWithAnother_IsAConflict()
    {
        await using var server = await TestServer.StartAsync();
        await server.Readings.PostReadingAsync(Request(First), cancellationToken: Token);
        await server.Readings.PostReadingAsync(Correcting(Second, First), cancellationToken: Token);

        var faults = await Rpc.FaultsAsync(StatusCode.AlreadyExists, server.Readings.PostReadingAsync(Request(Second), cancellationToken: Token));

        Assert.Equal(["corrects"], faults.Keys);
    }

    [Fact]
    public async Task Picture_ComesBackBitForBit()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request(First);
        request.Picture = ByteString.CopyFrom(PictureExamples.Jpeg());
        await server.Readings.PostReadingAsync(request, cancellationToken: Token);

        var picture = await server.Readings.GetPictureAsync(new GetPictureRequest { ReadingId = First }, cancellationToken: Token);
        var reading = await GetAsync(server, First);

        Assert.Equal(request.Picture, picture.Picture);
        Assert.Equal(picture.Info, reading.Picture);
        Assert.Equal((PictureFormat.Jpeg, 16u, 9u), (reading.Picture.Format, reading.Picture.WidthPx, reading.Picture.HeightPx));
    }

    [Fact]
    public async Task Picture_OfAReadingWithout_IsNotFound()
    {
        await using var server = await TestServer.StartAsync();
        await server.Readings.PostReadingAsync(Request(First), cancellationToken: Token);

        await Rpc.FailsAsync(StatusCode.NotFound, server.Readings.GetPictureAsync(new GetPictureRequest { ReadingId = First }, cancellationToken: Token));
    }

    private static async Task<Reading> GetAsync(TestServer server, string id) =>
        (await server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = id }, cancellationToken: Token)).Reading;

    private static PostReadingRequest Correcting(string id, string corrected)
    {
        var request = Request(id);
        request.Corrects = new Correction { ReadingId = corrected, Reason = "wrong roll typed", Person = "E. Marsh" };
        return request;
    }

    private static PostReadingRequest Request(string id) => new()
    {
        ReadingId = id,
        Measurement = WireExamples.Sphere(),
        Method = WireExamples.Method(),
    };

    private static Origin Origin() => new()
    {
        Person = "E. Marsh",
        Station = "line 3 terminal",
        ClientSoftware = "poster 2.1",
        InstrumentState = new InstrumentState
        {
            CalibratedAt = Timestamp.FromDateTimeOffset(WireExamples.Clock.GetUtcNow().AddHours(-2)),
            CheckStandard = "haze 5 %",
            CheckResult = CheckResult.WithinLimits,
            LampHours = 812.5,
            InternalTemperatureC = 31,
            Remarks = "sphere cleaned",
        },
    };
}

using ClearView.Contract.Tests;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Grpc.Core;
using Grpc.Net.Client;

namespace ClearView.EndToEnd.Tests.Servers;

/// <summary>A client that posts one reading after the other until the server goes away.</summary>
internal sealed class Poster(int number, int seed)
{
    private readonly Random _random = new(seed);

    /// <summary>What the server has acknowledged, over all rounds.</summary>
    public List<PostReadingRequest> Acknowledged { get; } = [];

    /// <summary>What was on its way when the server went away, over all rounds.</summary>
    public List<PostReadingRequest> Unanswered { get; } = [];

    public async Task PostUntilCutOffAsync(GrpcChannel channel, CancellationToken cancellationToken)
    {
        var client = new ReadingService.ReadingServiceClient(channel);
        while (true)
        {
            var request = NextRequest();
            try
            {
                var response = await client.PostReadingAsync(
                    request, deadline: DateTime.UtcNow.AddSeconds(30), cancellationToken: cancellationToken);
                Assert.False(response.AlreadyStored);
                Acknowledged.Add(request);
            }
            catch (RpcException error) when (error.StatusCode is StatusCode.Unavailable or StatusCode.Internal or StatusCode.Cancelled)
            {
                Unanswered.Add(request);
                return;
            }
        }
    }

    private PostReadingRequest NextRequest()
    {
        var measurement = WireExamples.Sphere();
        measurement.MeasuredAt = DateTimeOffset.UtcNow.ToTimestamp();
        measurement.Identification.Line = "line " + number;
        measurement.Identification.Specimen = "S-" + Acknowledged.Count;
        var scan = measurement.Scans.Sphere.TotalReading;
        for (var i = 0; i < scan.Count; i++)
        {
            scan[i] = 850 + 100 * _random.NextDouble();
        }

        return new PostReadingRequest
        {
            ReadingId = Guid.CreateVersion7().ToString(),
            Measurement = measurement,
            Method = WireExamples.Method(),
        };
    }
}

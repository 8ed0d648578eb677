using ClearView.EndToEnd.Tests.Lines;
using ClearView.V1;

using Grpc.Core;
using Grpc.Net.Client;

namespace ClearView.EndToEnd.Tests.Servers;

/// <summary>A client that posts one reading after the other until the server goes away.</summary>
internal sealed class Poster(int number, int seed)
{
    private readonly ReadingMaker _readings = new("line " + number, seed);

    /// <summary>What the server has acknowledged, over all rounds.</summary>
    public List<PostReadingRequest> Acknowledged { get; } = [];

    /// <summary>What was on its way when the server went away, over all rounds.</summary>
    public List<PostReadingRequest> Unanswered { get; } = [];

    public async Task PostUntilCutOffAsync(GrpcChannel channel, CancellationToken cancellationToken)
    {
        var client = new ReadingService.ReadingServiceClient(channel);
        while (true)
        {
            var request = _readings.Next();
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
}

using ClearView.Client;
using ClearView.V1;

namespace ClearView.EndToEnd.Tests.Lines;

/// <summary>Counts what a store holds against what was posted.</summary>
internal static class Inventory
{
    /// <summary>Every acknowledged reading is there once, bit for bit, nothing else is, and the chains hold.</summary>
    /// <param name="server">A server on the store.</param>
    /// <param name="acknowledged">What was acknowledged.</param>
    /// <param name="cancellationToken">Gives up.</param>
    public static async Task CheckAsync(Uri server, IReadOnlyCollection<PostReadingRequest> acknowledged, CancellationToken cancellationToken)
    {
        await using var client = ClearViewClient.Connect(server);
        var stored = new Dictionary<string, Reading>(StringComparer.Ordinal);
        await foreach (var reading in client.ListAsync(new ListReadingsRequest { PageSize = 1000 }, cancellationToken))
        {
            Assert.True(stored.TryAdd(reading.ReadingId, reading), $"{reading.ReadingId} is listed twice");
        }

        Assert.NotEmpty(acknowledged);
        Assert.Equal(acknowledged.Count, stored.Count);
        foreach (var post in acknowledged)
        {
            Assert.True(stored.TryGetValue(post.ReadingId, out var reading), $"{post.ReadingId} was acknowledged and is gone");
            Assert.Equal(post.Measurement, reading.Measurement);
            Assert.Equal(post.Method, reading.Method);
        }

        var verified = await client.VerifyChainAsync([], progress: null, cancellationToken);
        Assert.Null(verified.FirstBreak);
        Assert.Equal(acknowledged.Count, verified.ReadingCount);
    }

    /// <summary>The same for lines.</summary>
    public static Task CheckAsync(Uri server, IEnumerable<Line> lines, CancellationToken cancellationToken) =>
        CheckAsync(server, lines.SelectMany(line => line.Acknowledged).ToList(), cancellationToken);
}

using ClearView.V1;

namespace ClearView.Client;

/// <content>Posting over a stream.</content>
public sealed partial class ClearViewClient
{
    /// <summary>Posts many readings over one stream. When an acknowledgement comes, its reading is on durable storage.</summary>
    /// <remarks>
    /// When the server becomes unavailable, a new stream repeats what was not answered, in its order. A reading is stored once however
    /// often it is repeated, and never before one that was posted before it.
    /// </remarks>
    /// <param name="requests">The readings, each with its identifier; read as the server takes them.</param>
    /// <param name="includeReadings">Whether each acknowledgement brings the reading as it is stored; <see langword="false"/> leaves it out.</param>
    /// <param name="cancellationToken">Gives the call up; readings without an answer may be stored nevertheless.</param>
    /// <returns>One answer per reading, in their order; one that is refused for good is answered so.</returns>
    /// <exception cref="ClearViewCallException">The server could not be reached, not again, or cannot take readings; trying again is safe.</exception>
    public IAsyncEnumerable<PostReadingsResponse> PostManyAsync(
        IAsyncEnumerable<PostReadingRequest> requests, bool includeReadings = false, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(requests);
        return ResumeAsync(
            requests.Select(request => new PostReadingsRequest { Post = request, IncludeReading = includeReadings }),
            call => _readings.PostReadings(call),
            static (request, response) => request.Post.ReadingId == response.ReadingId,
            MostUnansweredSpecimens,
            cancellationToken);
    }
}

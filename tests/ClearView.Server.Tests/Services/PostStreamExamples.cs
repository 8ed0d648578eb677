using ClearView.Contract.Tests;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

/// <summary>Posts for streams, and what came of them.</summary>
internal static class PostStreamExamples
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    /// <summary>A post by its number.</summary>
    public static PostReadingsRequest Post(int number, Action<PostReadingRequest>? change = null)
    {
        var post = new PostReadingRequest
        {
            ReadingId = Id(number),
            Measurement = WireExamples.Normalised(),
            Method = WireExamples.Method(),
        };
        post.Measurement.Identification.Line = "line 3";
        post.Measurement.Identification.Specimen = FormattableString.Invariant($"S-{number}");
        change?.Invoke(post);
        return new PostReadingsRequest { Post = post };
    }

    /// <summary>Identifier of a post.</summary>
    public static string Id(int number) => FormattableString.Invariant($"0198f2a4-7c00-7000-8000-{number:d12}");

    /// <summary>Sends posts, closes the client's side, and takes every answer.</summary>
    public static async Task<List<PostReadingsResponse>> RunAsync(TestServer server, IEnumerable<PostReadingsRequest> posts)
    {
        using var call = server.Readings.PostReadings(cancellationToken: Token);
        var sending = Task.Run(
            async () =>
            {
                foreach (var post in posts)
                {
                    await call.RequestStream.WriteAsync(post, Token);
                }

                await call.RequestStream.CompleteAsync();
            },
            Token);
        List<PostReadingsResponse> answers = [];
        await foreach (var answer in call.ResponseStream.ReadAllAsync(Token))
        {
            answers.Add(answer);
        }

        await sending;
        Assert.Equal(StatusCode.OK, call.GetStatus().StatusCode);
        return answers;
    }
}

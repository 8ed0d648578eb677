using ClearView.Benchmarks.Measuring;
using ClearView.Client;
using ClearView.V1;

namespace ClearView.Benchmarks.Posting;

/// <summary>Rounds of posting through one stream beside a plain way to write the same rows.</summary>
internal static class PostRounds
{
    private const int ReadingsPerRound = 2560;

    /// <summary>Posts of a round; each call gives them identifiers of their own.</summary>
    public static PostReadingRequest[] Posts() => [.. Enumerable.Range(0, ReadingsPerRound).Select(PostedFilm.Post)];

    /// <summary>Posts through one stream, and makes sure that every reading was stored.</summary>
    public static async Task PostAsync(ClearViewClient client, PostReadingRequest[] posts)
    {
        var stored = 0;
        await foreach (var answer in client.PostManyAsync(posts.ToAsyncEnumerable()))
        {
            stored += answer.Acknowledgement is { AlreadyStored: false } ? 1 : 0;
        }

        if (stored != posts.Length)
        {
            throw new InvalidOperationException("Not every reading was stored.");
        }
    }

    /// <summary>Runs the rounds and prints them.</summary>
    /// <param name="rounds">How many.</param>
    /// <param name="client">Posts to the server.</param>
    /// <param name="plainName">Name of the plain way.</param>
    /// <param name="valuesPerReading">Values that each reading has.</param>
    /// <param name="writePlainAsync">Writes the rows once more the plain way, under new identifiers.</param>
    public static Task RunAsync(int rounds, ClearViewClient client, string plainName, int valuesPerReading, Func<Guid[], Task> writePlainAsync)
    {
        Console.WriteLine(FormattableString.Invariant(
            $"{valuesPerReading} values per reading; {PostedFilm.Post(0).CalculateSize()} bytes per post; {ReadingsPerRound} readings per round"));
        return AlternatingRounds.RunAsync(rounds, ReadingsPerRound, plainName, "one stream", () =>
        {
            var posts = Posts();
            Guid[] ids = [.. posts.Select(post => Guid.Parse(post.ReadingId))];
            return (() => writePlainAsync(ids), () => PostAsync(client, posts));
        });
    }
}

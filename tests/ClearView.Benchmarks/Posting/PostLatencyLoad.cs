using System.Diagnostics;

using ClearView.Benchmarks.Evaluating;
using ClearView.Benchmarks.Measuring;
using ClearView.V1;

namespace ClearView.Benchmarks.Posting;

/// <summary>
/// How long one post takes, from the call to the answer that it is on the disk, beside an echo of the same messages, and beside a plain
/// insert of the same rows that is flushed: what the disk itself costs. One after the other, in turns.
/// </summary>
internal static class PostLatencyLoad
{
    private const int WarmUpCalls = 200;

    /// <summary>Makes the calls and prints their times.</summary>
    /// <param name="arguments">The number of calls, or nothing.</param>
    public static async Task RunAsync(IReadOnlyList<string> arguments)
    {
        var calls = Counts.Read(arguments, least: 100, 2000)[0];
        Machine.Print(Machine.Sqlite());
        using var folder = new TemporaryFolder();
        var store = folder.File("readings.db");
        await using var server = await LoopbackServer.StartAsync(store);
        ReadingService.ReadingServiceClient real = new(server.Channel);
        var answers = new EchoAnswers { Post = await real.PostReadingAsync(PostedFilm.Post(0)) };
        await using var echo = await EchoServer.StartAsync(answers);
        ReadingService.ReadingServiceClient plain = new(echo.Channel);
        using var raw = new RawStore(folder.File("raw.db"), store);

        List<double> echoTimes = [];
        List<double> insertTimes = [];
        List<double> postTimes = [];
        for (var i = -WarmUpCalls; i < calls; i++)
        {
            var post = PostedFilm.Post(i + WarmUpCalls + 1);
            var started = Stopwatch.GetTimestamp();
            await plain.PostReadingAsync(post);
            var echoed = Stopwatch.GetTimestamp();
            await real.PostReadingAsync(post);
            var posted = Stopwatch.GetTimestamp();
            raw.InsertAll([Guid.CreateVersion7()]);
            var inserted = Stopwatch.GetTimestamp();
            if (i >= 0)
            {
                echoTimes.Add(Stopwatch.GetElapsedTime(started, echoed).TotalMilliseconds);
                postTimes.Add(Stopwatch.GetElapsedTime(echoed, posted).TotalMilliseconds);
                insertTimes.Add(Stopwatch.GetElapsedTime(posted, inserted).TotalMilliseconds);
            }
        }

        Console.WriteLine(FormattableString.Invariant($"{PostedFilm.Post(0).CalculateSize()} bytes per post, {answers.Post.CalculateSize()} per answer; {calls} of each in turns"));
        var table = new AlignedTable(30, "", "p50, ms", "p99, ms", "p50 : echo", "p99 : echo");
        Row("echo call", echoTimes);
        Row("plain insert of one, flushed", insertTimes);
        Row("PostReading, durable", postTimes);
        Row("PostReading less plain insert", [.. postTimes.Zip(insertTimes, (post, insert) => post - insert)]);

        void Row(string name, List<double> times)
        {
            var (p50, p99) = (Figures.Quantile(times, 0.5), Figures.Quantile(times, 0.99));
            table.Row(
                name,
                Figures.Text(p50, 3),
                Figures.Text(p99, 3),
                Figures.Text(p50 / Figures.Quantile(echoTimes, 0.5), 1),
                Figures.Text(p99 / Figures.Quantile(echoTimes, 0.99), 1));
        }
    }
}

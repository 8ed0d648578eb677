using ClearView.Client;
using ClearView.Console.Commands;
using ClearView.Console.Rendering;
using ClearView.V1;

using Microsoft.Extensions.Time.Testing;

namespace ClearView.Console.Tests.Server;

/// <summary>Readings of a real server, with verdicts and signals, as they are watched.</summary>
public sealed class WatchCommandTests : IDisposable
{
    private static readonly string[] SetUp =
    [
        "methods store film-u --method astm --uncertainty repeatability=0.05,zero=0.05,drift=0.1 --description \"With uncertainty\" --by QA",
        "specifications store lidding --product \"clear lidding 38\" --kind film --method film-u --specimens 1 --limit \"haze 0.5..3 target 1\""
            + " --limit \"luminous_transmittance>=91.6\" --rule guarded --description \"Lidding film\" --by QA",
        "control-charts store haze-all --measurand haze --kind individuals --known 1.0,0.05 --description \"All haze\" --by QA",
        "post Samples/film-total-diffuse.csv --specification lidding",
        "post Samples/hazemeter.csv --method astm",
        "post Samples/film-semicolon-decimal-comma.csv --method astm",
        "specifications store wide --product \"clear lidding 38\" --kind film --method film-u --specimens 1 --limit haze<=5 --rule guarded"
            + " --description \"Wide limits\" --by QA",
        "post Samples/film-sphere-tab-utf16-descending.csv --specification wide",
    ];

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-watch-tests-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Place => Path.Combine(_folder.FullName, "line3.place");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Watch_ReadingsWithVerdictsAndSignals_ScreenIsTheOneThatWasLookedAt_AndEndsInOrder()
    {
        await using var server = await ServerSession.StartAsync();
        foreach (var command in SetUp)
        {
            await server.RunAsync(command);
        }

        var run = await WatchAsync(server, "watch --from-beginning");

        Assert.Equal((0, ""), (run.ExitCode, run.Errors));
        Assert.All(run.Output.Split('\n'), line => Assert.True(line.Length <= 100, line));
        GoldenFile.Check("watch", run.ToString());
    }

    [Fact]
    public async Task Watch_OnlyAlarms_LeavesOutWhatConformsAndRaisesNothing()
    {
        await using var server = await ServerSession.StartAsync();
        foreach (var command in SetUp[..2])
        {
            await server.RunAsync(command);
        }

        await server.RunAsync("post Samples/film-total-diffuse.csv --specification lidding");
        await server.RunAsync("post Samples/hazemeter.csv --method astm");
        var all = await WatchAsync(server, "watch --from-beginning");
        var alarms = await WatchAsync(server, "watch --from-beginning --only-alarms");

        // Hazemeter readings were not judged, so that none of them is an alarm; the judged ones are not all proven to conform.
        var shown = Readings(alarms);
        Assert.NotEmpty(shown);
        Assert.Equal(Readings(all).Where(line => line.Contains('✗', StringComparison.Ordinal) || line.Contains('~', StringComparison.Ordinal)), shown);
    }

    [Fact]
    public async Task Watch_WithAPlace_GoesOnBehindIt()
    {
        await using var server = await ServerSession.StartAsync();
        await server.RunAsync("post Samples/hazemeter.csv --method astm");
        var first = await WatchAsync(server, "watch --from-beginning");
        await server.RunAsync("post Samples/film-total-diffuse.csv --method astm");

        var second = await WatchAsync(server, "watch --from-beginning", isFresh: false);
        var all = await WatchAsync(server, "watch --from-beginning");

        Assert.Equal(Readings(all), Readings(first).Concat(Readings(second)));
        Assert.NotEmpty(Readings(second));
        Assert.False(File.Exists(Place + ".new"));
    }

    private static string[] Readings(ConsoleRun run) => run.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries)[1..];

    // Ctrl+C once the file holds the place behind everything that is stored.
    private async Task<ConsoleRun> WatchAsync(ServerSession server, string arguments, bool isFresh = true)
    {
        if (isFresh)
        {
            File.Delete(Place);
        }

        var last = await LastPlaceAsync(server);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(Token);
        using var output = new StringWriter();
        using var errors = new StringWriter();
        string[] words = [.. arguments.Split(' '), "--position", Place, "--server", server.Address];
        var watching = Task.Run(() => ClearViewRoot.RunAsync(words, new Screen(output, errors), new FakeTimeProvider(ConsoleRun.Now), stop.Token), Token);
        while (!File.Exists(Place) || (await File.ReadAllTextAsync(Place, Token)).Trim() != last)
        {
            Assert.False(watching.IsCompleted, $"the watch ended: {(watching.IsCompleted ? errors.ToString() : "")}");
            await Task.Delay(10, Token);
        }

        await stop.CancelAsync();
        return new ConsoleRun(arguments, await watching, output.ToString(), errors.ToString());
    }

    private static async Task<string> LastPlaceAsync(ServerSession server)
    {
        await using var client = ClearViewClient.Connect(new Uri("http://" + server.Address));
        await foreach (var answer in client.WatchAsync(new WatchReadingsRequest(), cancellationToken: Token))
        {
            return answer.Position;
        }

        throw new InvalidOperationException("There was no answer.");
    }
}

using System.Text.Json.Nodes;

namespace ClearView.Console.Tests.Server;

/// <summary>Post, list and show against the real server; evaluate through its stream.</summary>
public class ServerCommandTests
{
    [Fact]
    public async Task PostListShow_ScreensAreThoseThatWereLookedAt()
    {
        await using var server = await ServerSession.StartAsync();

        var post = await server.RunAsync("post Samples --method astm --limit \"haze<=2.0\"");
        var again = await server.RunAsync("post Samples/hazemeter.csv --method astm");
        var list = await server.RunAsync("list");
        var filtered = await server.RunAsync("list --product \"clear lidding 38\" --roll 14 --oldest-first --count 3 --limit \"haze<=2.0\"");
        var none = await server.RunAsync("list --line 99");
        var id = JsonNode.Parse((await server.RunAsync("list --specimen F-0012 --json")).Output)!["readings"]![0]!["reading"]!["readingId"]!;
        var show = await server.RunAsync($"show {id} --limit \"haze<=2.0\"");

        Assert.Equal([1, 0, 0, 1, 0, 0], new[] { post, again, list, filtered, none, show }.Select(run => run.ExitCode));
        foreach (var (name, run) in new[] { ("post", post), ("post-again", again), ("list", list), ("list-filtered", filtered), ("list-none", none), ("show", show) })
        {
            Assert.All(run.Output.Split('\n'), line => Assert.True(line.Length <= 100, line));
            GoldenFile.Check(name, run.ToString());
        }
    }

    [Fact]
    public async Task Evaluate_ThroughTheServer_GivesWhatIsComputedHere()
    {
        await using var server = await ServerSession.StartAsync();
        const string Line = "evaluate Samples --method iso --limit \"haze<=2.0\"";

        var there = await server.RunAsync(Line);
        var here = await ConsoleRun.RunAsync(Line);

        Assert.Equal(here, there);
    }

    [Fact]
    public async Task Evaluate_ThroughTheServer_TellsRefusedSpecimens()
    {
        await using var server = await ServerSession.StartAsync();
        const string Line = "evaluate Samples/hazemeter.csv --method astm --override aperture_mm=0";

        Assert.Equal(await ConsoleRun.RunAsync(Line), await server.RunAsync(Line));
    }

    [Fact]
    public async Task Post_Json_HoldsTheStoredReading()
    {
        await using var server = await ServerSession.StartAsync();
        const string Line = "post Samples/film-total-diffuse.csv --method astm --json";

        var first = JsonNode.Parse((await server.RunAsync(Line)).Output)!["readings"]!.AsArray().Single()!;
        var second = JsonNode.Parse((await server.RunAsync(Line)).Output)!["readings"]!.AsArray().Single()!;

        Assert.False((bool)first["alreadyStored"]!);
        Assert.True((bool)second["alreadyStored"]!);
        Assert.True(JsonNode.DeepEquals(first["reading"], second["reading"]));
        Assert.Equal("F-0012", (string)first["reading"]!["measurement"]!["identification"]!["specimen"]!);
    }

    [Fact]
    public async Task Post_RefusedSpecimens_AreTold()
    {
        await using var server = await ServerSession.StartAsync();

        var run = await server.RunAsync("post Samples/hazemeter.csv --method astm --override aperture_mm=0");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("measurement.conditions.aperture_mm: was 0", run.Errors, StringComparison.Ordinal);
        Assert.Contains("No reading matches.", (await server.RunAsync("list")).Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Show_UnknownReading_SaysSo()
    {
        await using var server = await ServerSession.StartAsync();

        var run = await server.RunAsync("show 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11", run.Errors, StringComparison.Ordinal);
    }
}

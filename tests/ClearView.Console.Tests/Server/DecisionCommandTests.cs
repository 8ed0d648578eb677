using System.Text.Json.Nodes;

namespace ClearView.Console.Tests.Server;

/// <summary>Specifications, verdicts, control charts and studies of readings that a real server holds.</summary>
public sealed class DecisionCommandTests : IDisposable
{
    private const string StoreMethod = "methods store film-u --method astm --uncertainty repeatability=0.05,zero=0.05,drift=0.1 --description \"With uncertainty\" --by QA";
    private const string StoreSpecification = "specifications store lidding --product \"clear lidding 38\" --kind film --method film-u --specimens 1 "
        + "--limit \"haze 0.5..3 target 1\" --limit \"luminous_transmittance>=91.6\" --rule guarded --description \"Lidding film\" --by QA";
    private const string StoreChart = "control-charts store haze-all --measurand haze --kind individuals --known 1.0,0.05 --description \"All haze\" --by QA";
    private const string Post = "post Samples/film-total-diffuse.csv --specification lidding";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-decision-tests-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task PostUnderSpecification_ScreensAreThoseThatWereLookedAt()
    {
        await using var server = await ServerSession.StartAsync();

        await server.RunAsync(StoreMethod);
        var stored = await server.RunAsync(StoreSpecification);
        var chart = await server.RunAsync(StoreChart);
        var post = await server.RunAsync(Post);
        var again = await server.RunAsync(Post);
        var list = await server.RunAsync("list");
        var id = (string)JsonNode.Parse((await server.RunAsync("list --json")).Output)!["readings"]![0]!["reading"]!["readingId"]!;
        var show = await server.RunAsync($"show {id}");
        var judge = await server.RunAsync("judge Samples/film-total-diffuse.csv --specification lidding");
        await server.RunAsync(StoreSpecification.Replace("91.6", "80", StringComparison.Ordinal));
        var rejudge = await server.RunAsync("rejudge --specification lidding");
        var drawn = await server.RunAsync("control-charts show haze-all");

        Assert.Equal([0, 0, 1, 1, 0, 1, 0, 0], new[] { stored, chart, post, again, list, judge, rejudge, drawn }.Select(run => run.ExitCode));
        foreach (var (name, run) in new[]
        {
            ("specification-stored", stored), ("post-verdict", post), ("list-verdict", list),
            ("judge-guarded", judge), ("rejudge", rejudge), ("chart-shown", drawn),
        })
        {
            Assert.All(run.Output.Split('\n'), line => Assert.True(line.Length <= 100, line));
            GoldenFile.Check(name, run.ToString());
        }
        Assert.Contains("had been stored before", again.Output, StringComparison.Ordinal);
        Assert.Contains("Signals raised", again.Output, StringComparison.Ordinal);
        Assert.Contains("Verdict at the time of posting", show.Output, StringComparison.Ordinal);
        Assert.Contains("~ neither proven", show.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task StoredSpecification_IsListedShownAndGivesAFileThatJudges()
    {
        await using var server = await ServerSession.StartAsync();
        await server.RunAsync(StoreMethod);
        await server.RunAsync(StoreSpecification);

        var again = await server.RunAsync(StoreSpecification);
        var list = await server.RunAsync("specifications list");
        var shown = await server.RunAsync("specifications show lidding@1 --json");
        var file = Path.Combine(_folder.FullName, "lidding.json");
        await File.WriteAllTextAsync(file, shown.Output, TestContext.Current.CancellationToken);
        var byFile = await server.RunAsync($"judge Samples/film-total-diffuse.csv --specification \"{file}\" --json");
        var byName = await server.RunAsync("judge Samples/film-total-diffuse.csv --specification lidding --json");
        var unknown = await server.RunAsync("specifications show nowhere");

        Assert.Contains("held the same already", again.Output, StringComparison.Ordinal);
        Assert.Contains("lidding", list.Output, StringComparison.Ordinal);
        Assert.Equal(
            JsonNode.Parse(byName.Output)!["verdict"]!["limits"]!.ToJsonString(),
            JsonNode.Parse(byFile.Output)!["verdict"]!["limits"]!.ToJsonString());
        Assert.Equal(2, unknown.ExitCode);
        Assert.Contains("nowhere", unknown.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task StoredReference_CarriesTheColourOfItsReading()
    {
        await using var server = await ServerSession.StartAsync();
        var posted = JsonNode.Parse((await server.RunAsync("post Samples/film-total-diffuse.csv --method astm --json")).Output)!["readings"]![0]!["reading"]!;
        var id = (string)posted["readingId"]!;
        var expected = posted["evaluation"]!["values"]!.AsArray().Single(value => (string)value!["measurand"]! == "cielab_l")!["value"]!;

        var stored = await server.RunAsync($"references store master {id} --description Master --by QA");
        var shown = await server.RunAsync("references show master --json");
        var list = await server.RunAsync("references list");

        Assert.Contains("Stored as master, version 1.", stored.Output, StringComparison.Ordinal);
        Assert.Equal((double)expected, (double)JsonNode.Parse(shown.Output)!["colour"]!["lStar"]!);
        Assert.Contains("master", list.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Studies_OfFiles_AreTheSameHereAndThere()
    {
        await using var server = await ServerSession.StartAsync();

        foreach (var line in (string[])
            [
                "capability Values/line-3.csv --measurand haze --upper 3",
                "roll-map Values/roll-14.csv --measurand haze --upper 2",
                "compare-lots Values/lots.csv --measurand haze --margin haze=0.2",
                "sampling plan --acceptable 1 --rejectable 6",
                "control-charts draw Values/line-3.csv --measurand haze --kind individuals --baseline 1..40",
            ])
        {
            Assert.Equal(await ConsoleRun.RunAsync(line), await server.RunAsync(line));
        }
    }

    [Fact]
    public async Task Studies_OfStoredReadings_AreAnswered()
    {
        await using var server = await ServerSession.StartAsync();
        await server.RunAsync("post Samples --method astm");

        var capability = await server.RunAsync("capability --measurand haze --upper 3 --roll 14");
        var map = await server.RunAsync("roll-map --measurand haze --roll 14");
        var lots = await server.RunAsync("compare-lots --lot A --lot B --measurand haze");

        // Seven readings are too few for indices.
        Assert.Equal(1, capability.ExitCode);
        Assert.Contains("no indices", capability.Output, StringComparison.Ordinal);
        Assert.Equal(0, map.ExitCode);
        // One film sample names its place; the other readings of the roll are told apart.
        Assert.Contains("more without a place are not counted", map.Output, StringComparison.Ordinal);
        Assert.Equal(2, lots.ExitCode);
        Assert.NotEmpty(lots.Errors);
    }

    [Theory]
    [InlineData("control-charts draw Values/line-3.csv --measurand haze --kind individuals --baseline 1..40", "png")]
    [InlineData("capability Values/line-3.csv --measurand haze --upper 3 --before 2026-03-02T15:00:00Z", "png")]
    [InlineData("roll-map Values/roll-14.csv --measurand haze --upper 2", "pdf")]
    [InlineData("compare-lots Values/lots.csv --measurand haze", "png")]
    [InlineData("sampling plan --acceptable 1 --rejectable 6", "pdf")]
    [InlineData("judge Samples/film-total-diffuse.csv --specification Values/lidding-38.json", "png")]
    public async Task ChartOption_WritesThePicture_AndItsJsonDrawsTheSame(string line, string format)
    {
        var picture = Path.Combine(_folder.FullName, $"picture.{format}");
        var again = Path.Combine(_folder.FullName, $"again.{format}");
        var json = Path.Combine(_folder.FullName, "answer.json");

        var run = await ConsoleRun.RunAsync($"{line} --json --chart \"{picture}\"");
        await File.WriteAllTextAsync(json, run.Output, TestContext.Current.CancellationToken);
        var drawn = await ConsoleRun.RunAsync($"chart decision \"{json}\" --output \"{again}\"");

        Assert.InRange(run.ExitCode, 0, 1);
        Assert.Equal("", drawn.Errors);
        Assert.Equal(await File.ReadAllBytesAsync(picture, TestContext.Current.CancellationToken), await File.ReadAllBytesAsync(again, TestContext.Current.CancellationToken));
    }
}

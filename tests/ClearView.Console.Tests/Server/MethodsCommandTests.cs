using System.Text.Json.Nodes;

namespace ClearView.Console.Tests.Server;

/// <summary>Methods that a real server keeps.</summary>
public class MethodsCommandTests
{
    private const string Store = "methods store line-3 --method astm --observer 10 --description \"Line 3\" --by QA";

    [Fact]
    public async Task StoredMethod_IsShownListedAndUsed()
    {
        await using var server = await ServerSession.StartAsync();

        var stored = await server.RunAsync(Store);
        var again = await server.RunAsync(Store);
        var shown = await server.RunAsync("methods show line-3@1 --json");
        var listed = await server.RunAsync("methods list");
        var evaluated = await server.RunAsync("evaluate Samples/film-total-diffuse.csv --method line-3 --json");
        var posted = await server.RunAsync("post Samples/film-total-diffuse.csv --method line-3 --json");

        Assert.Equal([0, 0, 0, 0, 0, 0], new[] { stored, again, shown, listed, evaluated, posted }.Select(run => run.ExitCode));
        Assert.Contains("Stored as line-3, version 1.", stored.Output, StringComparison.Ordinal);
        Assert.Contains("held the same already", again.Output, StringComparison.Ordinal);
        Assert.Equal("OBSERVER_CIE_1964_10_DEG", (string)JsonNode.Parse(shown.Output)!["method"]!["luminous"]!["observer"]!);
        Assert.Contains("line-3", listed.Output, StringComparison.Ordinal);
        Assert.Contains("astm-hazemeter", listed.Output, StringComparison.Ordinal);
        Assert.Equal("line-3", (string)JsonNode.Parse(evaluated.Output)!["specimens"]![0]!["evaluation"]!["methodName"]!["name"]!);
        Assert.Equal(1, (int)JsonNode.Parse(posted.Output)!["readings"]![0]!["reading"]!["evaluation"]!["methodName"]!["version"]!);
    }

    [Fact]
    public async Task UnknownMethod_IsTold()
    {
        await using var server = await ServerSession.StartAsync();

        var run = await server.RunAsync("evaluate Samples/film-total-diffuse.csv --method nowhere");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("nowhere", run.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task CatalogueAndMeans_AreTheSameHereAndThere()
    {
        await using var server = await ServerSession.StartAsync();
        const string Mean = "evaluate Samples/bottles-wide.csv --method astm --uncertainty repeatability=0.05,zero=0.02 --mean";

        Assert.Equal((await ConsoleRun.RunAsync("catalogue")).Output, (await server.RunAsync("catalogue")).Output);
        Assert.Equal((await ConsoleRun.RunAsync(Mean)).Output, (await server.RunAsync(Mean)).Output);
    }

    [Theory]
    [InlineData("methods store Line --method astm --description x --by QA", "cannot be a method's name")]
    [InlineData("methods store astm --method iso --description x --by QA", "is built in")]
    [InlineData("methods store line-3 --description x --by QA", "not stated in full")]
    [InlineData("methods show No", "is not a method's name")]
    [InlineData("methods show nowhere", "needs --server")]
    [InlineData("methods list --all-versions", "needs --server")]
    [InlineData("catalogue lamps", "there are illuminants")]
    public async Task Refused_SaysWhatWouldBeRight(string line, string expected)
    {
        var run = await ConsoleRun.RunAsync(line);

        Assert.Equal(2, run.ExitCode);
        Assert.Contains(expected, string.Join(' ', run.Errors.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries)), StringComparison.Ordinal);
    }
}

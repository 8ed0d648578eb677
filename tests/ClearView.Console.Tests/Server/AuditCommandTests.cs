using System.Text.RegularExpressions;

namespace ClearView.Console.Tests.Server;

/// <summary>Chains of the real server and of its store.</summary>
public partial class AuditCommandTests
{
    [Fact]
    public async Task VerifyAndHeads_ScreensAreThoseThatWereLookedAt()
    {
        await using var server = await ServerSession.StartAsync();
        var empty = await server.RunAsync("audit heads");
        await server.RunAsync("post Samples/hazemeter.csv --method astm");
        var heads = await server.RunAsync("audit heads");
        var verified = await server.RunAsync("audit verify");
        var noted = await server.RunAsync($"audit verify --head {heads.Output.Trim()}");
        var lost = await server.RunAsync($"audit verify --head 1:7:{new string('0', 64)}");
        var wrong = await server.RunAsync("audit verify --head 1:7");

        Assert.Equal([0, 0, 0, 0, 1, 2], new[] { empty, heads, verified, noted, lost, wrong }.Select(run => run.ExitCode));
        foreach (var (name, run) in new[] { ("audit-heads-none", empty), ("audit-heads", heads), ("audit-verify", verified), ("audit-verify-noted", noted), ("audit-verify-lost", lost), ("audit-verify-wrong", wrong) })
        {
            Assert.All(run.Output.Split('\n'), line => Assert.True(line.Length <= 100, line));
            GoldenFile.Check(name, Hash().Replace(run.ToString(), "(hash)"));
        }
    }

    [Fact]
    public async Task HeadsFile_VerifiesTheStoreWithoutAServer()
    {
        await using var server = await ServerSession.StartAsync();
        await server.RunAsync("post Samples/hazemeter.csv --method astm");
        var folder = Directory.CreateTempSubdirectory("clearview-audit-");
        try
        {
            var file = Path.Combine(folder.FullName, "heads.txt");
            var written = await server.RunAsync($"audit heads --out {file}");
            await server.RunAsync("post Samples/film-total-diffuse.csv --method astm");
            var verified = await ConsoleRun.RunAsync($"audit verify --heads {file} --store {server.Store} --json");

            Assert.Equal($"1 head written to {file}.\n", written.Output);
            Assert.Equal((0, ""), (verified.ExitCode, verified.Errors));
            Assert.Contains("\"holds\": true", verified.Output, StringComparison.Ordinal);
            File.AppendAllText(file, $"1:1:{new string('f', 64)}\n");
            Assert.Equal(1, (await ConsoleRun.RunAsync($"audit verify --heads {file} --store {server.Store}")).ExitCode);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public async Task Verify_StoreThatIsNotThere_SaysSo()
    {
        var run = await ConsoleRun.RunAsync("audit verify --store nothing.db");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("nothing.db does not exist", run.Errors, StringComparison.Ordinal);
        Assert.False(File.Exists("nothing.db"));
    }

    // Identifiers and times differ from run to run, and so do hashes.
    [GeneratedRegex("[0-9a-f]{64}(?<!0{64})")]
    private static partial Regex Hash();
}

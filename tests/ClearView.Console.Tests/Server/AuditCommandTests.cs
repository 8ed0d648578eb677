using System.Security.Cryptography;
using System.Text.RegularExpressions;

using Microsoft.Data.Sqlite;

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

    [Theory]
    [InlineData("verify")]
    [InlineData("heads")]
    public async Task Store_ThatIsNotThere_IsAnErrorAndNotMade(string command)
    {
        var run = await ConsoleRun.RunAsync($"audit {command} --store nothing.db");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("nothing.db does not exist", run.Errors, StringComparison.Ordinal);
        Assert.False(File.Exists("nothing.db"));
    }

    [Theory]
    [InlineData("verify")]
    [InlineData("heads")]
    public async Task Store_OfAnOlderSchema_StaysAsItIs(string command)
    {
        var folder = Directory.CreateTempSubdirectory("clearview-audit-");
        try
        {
            var file = Path.Combine(folder.FullName, "old.db");
            await using (var connection = new SqliteConnection($"Data Source={file};Pooling=False"))
            {
                connection.Open();
                using var mark = connection.CreateCommand();

                // "CLRV", as every store says in its header.
                mark.CommandText = "CREATE TABLE reading (sequence INTEGER PRIMARY KEY); PRAGMA application_id = 1129075286; PRAGMA user_version = 1";
                mark.ExecuteNonQuery();
            }

            var before = await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken);
            var run = await ConsoleRun.RunAsync($"audit {command} --store {file}");

            Assert.Equal(2, run.ExitCode);
            Assert.Contains("schema version 1", run.Errors, StringComparison.Ordinal);
            Assert.Contains("clearview serve --store", Unfolded(run.Errors), StringComparison.Ordinal);
            Assert.Equal(before, await File.ReadAllBytesAsync(file, TestContext.Current.CancellationToken));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public async Task Extract_IsWrittenWhole_AndOverNobodysFile()
    {
        var folder = Directory.CreateTempSubdirectory("clearview-audit-");
        try
        {
            string In(string name) => Path.Combine(folder.FullName, name);
            using (var key = ECDsa.Create(ECCurve.NamedCurves.nistP256))
            {
                await File.WriteAllTextAsync(In("audit-key.pem"), key.ExportECPrivateKeyPem(), TestContext.Current.CancellationToken);
            }
            await using var server = await ServerSession.StartAsync(options => options with { AuditKeyFile = In("audit-key.pem") });
            await server.RunAsync("post Samples/film-total-diffuse.csv --method astm --override lot=L-2231");

            var first = await server.RunAsync($"audit extract --lot L-2231 --out {In("lot.json")}");
            var check = await ConsoleRun.RunAsync($"audit check {In("lot.json")} --public-key {In("lot.json.pem")}");
            var before = await File.ReadAllBytesAsync(In("lot.json"), TestContext.Current.CancellationToken);
            var again = await server.RunAsync($"audit extract --lot L-2231 --out {In("lot.json")}");
            await File.WriteAllTextAsync(In("other.json.sig"), "kept", TestContext.Current.CancellationToken);
            var beside = await server.RunAsync($"audit extract --lot L-2231 --out {In("other.json")}");
            var none = await server.RunAsync($"audit extract --lot L-9 --out {In("none.json")}");

            Assert.Equal("", first.Errors + check.Errors);
            Assert.Equal([0, 0, 2, 2, 2], new[] { first, check, again, beside, none }.Select(run => run.ExitCode));
            Assert.Contains("lot.json exists; name a new file", Unfolded(again.Errors), StringComparison.Ordinal);
            Assert.Contains("other.json.sig exists; name a new file", Unfolded(beside.Errors), StringComparison.Ordinal);
            Assert.Equal(before, await File.ReadAllBytesAsync(In("lot.json"), TestContext.Current.CancellationToken));
            Assert.Equal(
                ["audit-key.pem", "lot.json", "lot.json.pem", "lot.json.sig", "other.json.sig"],
                folder.EnumerateFiles().Select(file => file.Name).Order(StringComparer.Ordinal));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static string Unfolded(string text) => string.Join(' ', text.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

    // Identifiers and times differ from run to run, and so do hashes.
    [GeneratedRegex("[0-9a-f]{64}(?<!0{64})")]
    private static partial Regex Hash();
}

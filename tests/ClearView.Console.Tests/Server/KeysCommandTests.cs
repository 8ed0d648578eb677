using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

using ClearView.Records.Sqlite;
using ClearView.Server.Configuration;
using ClearView.Server.Security;

namespace ClearView.Console.Tests.Server;

/// <summary>Keys, on a server that asks for them.</summary>
public sealed partial class KeysCommandTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-keys-tests-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Screens_AreThoseThatWereLookedAt()
    {
        var (server, admin) = await StartAsync();
        await using var ofTest = server;

        var line = await server.RunAsync($"keys create line-3 --role line --station \"line 3\" --station \"line 3b\" --description \"Line 3, inline\" --key-file \"{admin}\"");
        var certificate = await server.RunAsync($"keys create line-4 --role line --station \"line 4\" --description \"Line 4\" --by-certificate --key-file \"{admin}\"");
        await server.RunAsync($"keys create arden --role lab --description \"M. Arden, bench\" --key-file \"{admin}\"");
        var revoked = await server.RunAsync($"keys revoke arden --key-file \"{admin}\"");
        var list = await server.RunAsync($"keys list --key-file \"{admin}\"");
        var without = await server.RunAsync("keys list");

        Assert.Equal([0, 0, 0, 0, 2], new[] { line, certificate, revoked, list, without }.Select(run => run.ExitCode));
        GoldenFile.Check("keys-create", Plain(line, admin));
        GoldenFile.Check("keys-create-certificate", Plain(certificate, admin));
        GoldenFile.Check("keys-revoke", Plain(revoked, admin));
        GoldenFile.Check("keys-list", Plain(list, admin));
        Assert.Contains("does not know who calls", without.Errors, StringComparison.Ordinal);
        Assert.Contains("--key-file FILE", without.Errors, StringComparison.Ordinal);
        Assert.DoesNotContain("cvk_", list.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Bootstrap_MakesOneKey_AndRefusesASecond()
    {
        var store = Path.Combine(_folder.FullName, "line3.db");

        var first = await ConsoleRun.RunAsync($"keys bootstrap --store \"{store}\" --new-store");
        var second = await ConsoleRun.RunAsync($"keys bootstrap --store \"{store}\"");

        Assert.Equal([0, 2], new[] { first, second }.Select(run => run.ExitCode));
        GoldenFile.Check("keys-bootstrap", Plain(first, store));
        Assert.Matches(Secret(), first.Output);
        Assert.Contains("an administrator has a key", second.Errors, StringComparison.Ordinal);
        Assert.DoesNotContain("cvk_", second.Output + second.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Bootstrap_OfAStoreThatIsNotThere_IsAnErrorAndMakesNothing()
    {
        var run = await ConsoleRun.RunAsync($"keys bootstrap --store \"{Path.Combine(_folder.FullName, "lien3.db")}\" --out \"{Path.Combine(_folder.FullName, "admin.key")}\"");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("lien3.db does not exist", Unfolded(run.Errors), StringComparison.Ordinal);
        Assert.Contains("--new-store", run.Errors, StringComparison.Ordinal);
        Assert.Empty(_folder.EnumerateFileSystemInfos());
    }

    [Fact]
    public async Task Bootstrap_SecretFileThatExists_IsLeftAndNoKeyIsStored()
    {
        var store = Path.Combine(_folder.FullName, "line3.db");
        var file = Path.Combine(_folder.FullName, "admin.key");
        await File.WriteAllTextAsync(file, "kept", Token);

        var refused = await ConsoleRun.RunAsync($"keys bootstrap --store \"{store}\" --new-store --out \"{file}\"");

        Assert.Equal(2, refused.ExitCode);
        Assert.Equal("kept", await File.ReadAllTextAsync(file, Token));
        Assert.False(File.Exists(store));
    }

    [Fact]
    public async Task Bootstrap_SecretFile_OpensAndIsItsOwnersAlone_AndASecondLeavesNone()
    {
        var store = Path.Combine(_folder.FullName, "line3.db");
        var file = Path.Combine(_folder.FullName, "admin.key");
        var other = Path.Combine(_folder.FullName, "other.key");

        var made = await ConsoleRun.RunAsync($"keys bootstrap --store \"{store}\" --new-store --out \"{file}\"");
        var second = await ConsoleRun.RunAsync($"keys bootstrap --store \"{store}\" --out \"{other}\"");
        await using var server = await ServerSession.StartAsync(options => options with { Store = store, Access = AccessMode.Keys });
        var list = await server.RunAsync($"keys list --key-file \"{file}\"");

        Assert.Equal([0, 2, 0], new[] { made, second, list }.Select(run => run.ExitCode));
        Assert.DoesNotContain("cvk_", made.Output, StringComparison.Ordinal);
        Assert.False(File.Exists(other));
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
        }
    }

    [Fact]
    public async Task FirstKey_WhoseSecretCannotBeKept_IsNotStored()
    {
        await using var store = SqliteStore.Open(Path.Combine(_folder.FullName, "line3.db"), TimeProvider.System);

        await Assert.ThrowsAsync<IOException>(() => FirstKey.TryCreateAsync(store, TimeProvider.System, _ => throw new IOException("disk full"), Token));

        Assert.Equal("administrator", (await FirstKey.TryCreateAsync(store, TimeProvider.System, cancellationToken: Token))!.Key.Name);
    }

    [Fact]
    public async Task SecretFile_IsNewAndItsOwnersAlone_AndGoesWhereNoKeyIsMade()
    {
        var (server, admin) = await StartAsync();
        await using var ofTest = server;
        var file = Path.Combine(_folder.FullName, "lab.key");
        var other = Path.Combine(_folder.FullName, "other.key");
        var create = $"keys create lab --role lab --description Bench --key-file \"{admin}\" --out ";

        var made = await server.RunAsync(create + $"\"{file}\" --json");
        var again = await server.RunAsync(create + $"\"{other}\"");
        var exists = await server.RunAsync(create.Replace("create lab ", "create lab-2 ", StringComparison.Ordinal) + $"\"{file}\"");
        var list = await server.RunAsync($"list --key-file \"{file}\"");

        Assert.Equal([0, 2, 2, 0], new[] { made, again, exists, list }.Select(run => run.ExitCode));
        Assert.Equal("", (string)JsonNode.Parse(made.Output)!["secret"]!);
        Assert.Matches("^cvk_[A-Za-z0-9_-]{43}\n$", await File.ReadAllTextAsync(file, Token));
        Assert.False(File.Exists(other));
        Assert.Contains("has or had the name", again.Errors, StringComparison.Ordinal);
        Assert.Contains("exists", exists.Errors, StringComparison.Ordinal);
        if (!OperatingSystem.IsWindows())
        {
            Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file));
        }
    }

    [Fact]
    public async Task KeyOfALine_PostsForItsLine_AndMayNotMakeKeys()
    {
        var (server, admin) = await StartAsync();
        await using var ofTest = server;
        var file = Path.Combine(_folder.FullName, "line.key");
        await server.RunAsync($"keys create line-3 --role line --station 3 --description \"Line 3\" --key-file \"{admin}\" --out \"{file}\"");
        var post = $"post Samples/film-total-diffuse.csv --method astm --key-file \"{file}\" --override line=";

        var own = await server.RunAsync(post + "3");
        var other = await server.RunAsync(post + "4");
        var keys = await server.RunAsync($"keys list --key-file \"{file}\"");

        Assert.Equal("", own.Errors);
        Assert.Equal(0, own.ExitCode);
        Assert.Equal([2, 2], new[] { other, keys }.Select(run => run.ExitCode));
        Assert.Contains("the key line-3 is for \"3\"", Unfolded(other.Errors), StringComparison.Ordinal);
        Assert.Contains("may not call", keys.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Tls_AuthorityThatIsNamed_IsTrusted_AndNoOther()
    {
        var pem = await IssueAsync("server", "server.pem", "1.3.6.1.5.5.7.3.1");
        var (server, admin) = await StartAsync(options => options with { Certificate = pem });
        await using var ofTest = server;

        var trusted = await server.RunAsync($"keys list --key-file \"{admin}\" --ca \"{pem}\"");
        var untrusted = await server.RunAsync($"keys list --key-file \"{admin}\"");
        await using var second = await ServerSession.StartAsync(options => options with { Certificate = pem });
        var several = await ConsoleRun.RunAsync($"list --key-file \"{admin}\" --ca \"{pem}\" --server {second.Address},{server.Address}");

        Assert.Equal("", trusted.Errors + several.Errors);
        Assert.Equal([0, 0, 3], new[] { trusted, several, untrusted }.Select(run => run.ExitCode));
        Assert.Contains("certificate", untrusted.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ClientCertificate_IdentifiesItsHolder()
    {
        var serverPem = await IssueAsync("server", "server.pem", "1.3.6.1.5.5.7.3.1");
        var clientPem = await IssueAsync("line-4", "line-4.pem", "1.3.6.1.5.5.7.3.2");
        var (server, admin) = await StartAsync(options => options with { Certificate = serverPem, ClientCertificateAuthorities = clientPem });
        await using var ofTest = server;
        await server.RunAsync($"keys create line-4 --role line --station 4 --description \"Line 4\" --by-certificate --key-file \"{admin}\" --ca \"{serverPem}\"");

        var list = await server.RunAsync($"list --line 4 --ca \"{serverPem}\" --client-certificate \"{clientPem}\"");
        var keys = await server.RunAsync($"keys list --ca \"{serverPem}\" --client-certificate \"{clientPem}\"");

        Assert.Equal("", list.Errors);
        Assert.Equal([0, 2], new[] { list, keys }.Select(run => run.ExitCode));
        Assert.Contains("The key line-4 has the role line", Unfolded(keys.Errors), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("keys list --server http://192.0.2.7:5180 --key-file KEY", "is not sent to 192.0.2.7:5180 in the clear")]
    [InlineData("keys list --key-file nowhere.key", "the key cannot be read")]
    [InlineData("keys list --ca KEY", "cannot be used")]
    [InlineData("keys list --client-certificate-key KEY", "no certificate is named")]
    [InlineData("chart colour --key-file nowhere.key --out .", "the key cannot be read")]
    [InlineData("keys create a --role boss --description d", "'boss' not recognized")]
    public async Task Refused_SaysWhatWouldBeRight(string line, string expected)
    {
        var file = Path.Combine(_folder.FullName, "some.key");
        await File.WriteAllTextAsync(file, KeySecretOfNobody, Token);

        var run = await ConsoleRun.RunAsync(line.Replace("KEY", $"\"{file}\"", StringComparison.Ordinal));

        Assert.Equal(2, run.ExitCode);
        Assert.Contains(expected, Unfolded(run.Errors), StringComparison.Ordinal);
        Assert.DoesNotContain(KeySecretOfNobody, run.Errors, StringComparison.Ordinal);
    }

    private const string KeySecretOfNobody = "cvk_AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";

    private static string Unfolded(string text) => string.Join(' ', text.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

    // What differs from run to run, in the width that it has.
    private static string Plain(ConsoleRun run, string file) => Fingerprint().Replace(
        Secret().Replace(
            Time().Replace(run.ToString().Replace(file, "admin.key", StringComparison.Ordinal), match => match.Value.Length > 10 ? "YYYY-MM-DD hh:mm" : "YYYY-MM-DD"),
            "cvk_" + new string('x', 43)),
        "..ffff");

    // A certificate that is its own authority, with its private key in the same file. Uses of keys: RFC 5280, section 4.2.1.12.
    private async Task<string> IssueAsync(string name, string file, string use)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest($"CN={name}", key, HashAlgorithmName.SHA256);
        var names = new SubjectAlternativeNameBuilder();
        names.AddIpAddress(IPAddress.Loopback);
        request.CertificateExtensions.Add(names.Build());
        request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(use)], critical: false));
        using var certificate = request.CreateSelfSigned(DateTimeOffset.UtcNow.AddDays(-1), DateTimeOffset.UtcNow.AddDays(1));
        var path = Path.Combine(_folder.FullName, file);
        await File.WriteAllTextAsync(path, certificate.ExportCertificatePem() + "\n" + key.ExportPkcs8PrivateKeyPem(), Token);
        return path;
    }

    private async Task<(ServerSession Server, string AdministratorFile)> StartAsync(Func<ServerOptions, ServerOptions>? configure = null)
    {
        var server = await ServerSession.StartAsync(options => (configure?.Invoke(options) ?? options) with { Access = AccessMode.Keys });
        await using var store = SqliteStore.Open(server.Store, TimeProvider.System);
        var first = await FirstKey.TryCreateAsync(store, TimeProvider.System, cancellationToken: Token);
        var file = Path.Combine(_folder.FullName, "admin.key");
        await File.WriteAllTextAsync(file, first!.Secret + "\n", Token);
        return (server, file);
    }

    [GeneratedRegex("cvk_[A-Za-z0-9_-]{43}")]
    private static partial Regex Secret();

    [GeneratedRegex(@"\d{4}-\d\d-\d\d( \d\d:\d\d)?")]
    private static partial Regex Time();

    [GeneratedRegex(@"\.\.[0-9a-f]{4}")]
    private static partial Regex Fingerprint();
}

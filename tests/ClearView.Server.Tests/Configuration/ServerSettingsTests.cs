using System.Net;

using ClearView.Server.Configuration;

using Microsoft.Extensions.Logging;

namespace ClearView.Server.Tests.Configuration;

public sealed class ServerSettingsTests : IDisposable
{
    private const string ListenVariable = "CLEARVIEW__LISTEN";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-settings-");

    public void Dispose()
    {
        Environment.SetEnvironmentVariable(ListenVariable, null);
        _folder.Delete(recursive: true);
    }

    [Fact]
    public void Read_Nothing_GivesTheDefaults()
    {
        var options = ServerSettings.Read([]);

        Assert.Equal(IPEndPoint.Parse("127.0.0.1:5180"), options.Listen);
        Assert.Equal("clearview.db", Path.GetFileName(options.Store));
        Assert.Equal(TimeSpan.FromSeconds(30), options.ShutdownTimeout);
        Assert.Null(options.Certificate);
        Assert.Equal(AccessMode.Open, options.Access);
        Assert.Equal(LogLevel.Information, options.LogLevel);
        Assert.Equal(LogFormat.Text, options.LogFormat);
    }

    [Fact]
    public void Read_AllSources_TheLaterWins()
    {
        var store = Path.Combine(_folder.FullName, "line3.db");
        var config = Write(
            """
            { "listen": "127.0.0.1:1", "store": "nowhere/x.db", "logLevel": "warning", "shutdownTimeoutSeconds": 2.5, "logFormat": "json" }
            """);
        Environment.SetEnvironmentVariable(ListenVariable, "127.0.0.1:2");

        var options = ServerSettings.Read(["--config", config, "--store=" + store]);

        Assert.Equal(2, options.Listen.Port);
        Assert.Equal(store, options.Store);
        Assert.Equal(LogLevel.Warning, options.LogLevel);
        Assert.Equal(LogFormat.Json, options.LogFormat);
        Assert.Equal(TimeSpan.FromSeconds(2.5), options.ShutdownTimeout);
        Assert.Equal(3, ServerSettings.Read(["--config", config, "--store=" + store, "--listen", "127.0.0.1:3"]).Listen.Port);
    }

    [Theory]
    [InlineData("--store-password-file=secret.txt")]
    [InlineData("--store=postgres://clearview@127.0.0.1/line3", "--store-password-file= ")]
    public void Read_PasswordFileThatCannotServe_IsRefused(params string[] args) =>
        Assert.Contains("storePasswordFile", Assert.Throws<ServerOptionsException>(() => ServerSettings.Read(args)).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData("127.0.0.1:0", "127.0.0.1:0")]
    [InlineData("localhost:5180", "127.0.0.1:5180")]
    [InlineData("[::1]:5180", "[::1]:5180")]
    [InlineData("127.8.0.1:80", "127.8.0.1:80")]
    public void Read_LoopbackAddress_IsTaken(string listen, string expected) =>
        Assert.Equal(IPEndPoint.Parse(expected), ServerSettings.Read(["--listen", listen]).Listen);

    [Theory]
    [InlineData("0.0.0.0:5180")]
    [InlineData("[::]:5180")]
    [InlineData("192.0.2.7:5180")]
    public void Read_OtherAddressWithoutTlsAndKeys_IsRefusedWithTheReason(string listen)
    {
        AssertRefused("not a loopback address", "--listen", listen);
        AssertRefused("not a loopback address", "--listen", listen, "--access", "keys");
        AssertRefused("not a loopback address", "--listen", listen, "--certificate", "server.pem");
        AssertRefused("not a loopback address", "--listen", listen, "--certificate", "server.pem", "--access", "open");
    }

    [Fact]
    public void Read_OtherAddressWithTlsAndKeys_IsTaken()
    {
        var options = ServerSettings.Read(
        [
            "--listen", "192.0.2.7:5180", "--access", "keys", "--certificate", "server.pem", "--certificate-key", "server.key",
            "--certificate-password-file", "password.txt", "--client-certificate-authorities", "plant.pem",
            "--key-requests-per-second", "50", "--key-streams", "4", "--post-room-bytes", "16777216",
        ]);

        Assert.Equal(IPEndPoint.Parse("192.0.2.7:5180"), options.Listen);
        Assert.Equal(AccessMode.Keys, options.Access);
        Assert.Equal((50, 4, 16_777_216), (options.KeyRequestsPerSecond, options.KeyStreams, options.PostRoomBytes));
        Assert.Equal(
            ["server.pem", "server.key", "password.txt", "plant.pem"],
            [options.Certificate, options.CertificateKey, options.CertificatePasswordFile, options.ClientCertificateAuthorities]);
    }

    [Theory]
    [InlineData("127.0.0.1")]
    [InlineData("5180")]
    [InlineData("::1")]
    [InlineData("127.0.0.1:65536")]
    [InlineData("example.org:5180")]
    [InlineData("")]
    public void Read_NoAddressWithPort_IsRefused(string listen) =>
        AssertRefused("not an address with a port", "--listen", listen);

    [Theory]
    [InlineData("unknown flag", "--lisen", "127.0.0.1:1")]
    [InlineData("unknown flag", "store.db")]
    [InlineData("has no value", "--store")]
    [InlineData("stands twice", "--store=a.db", "--store", "b.db")]
    [InlineData("does not exist", "--config", "missing.json")]
    [InlineData("create it first", "--store", "missing-folder/x.db")]
    [InlineData("names no file", "--store", " ")]
    [InlineData("is a folder", "--store", ".")]
    [InlineData("says nothing without it", "--certificate-key", "server.key")]
    [InlineData("says nothing without it", "--client-certificate-authorities", "plant.pem", "--access", "keys")]
    [InlineData("needs access = keys", "--certificate", "server.pem", "--client-certificate-authorities", "plant.pem")]
    [InlineData("certificate: names no file", "--certificate", " ")]
    [InlineData("keyRequestsPerSecond: must be 1 to 1000000", "--key-requests-per-second", "0")]
    [InlineData("keyRequestsPerSecond: \"-1\" is not a whole number", "--key-requests-per-second", "-1")]
    [InlineData("keyStreams: must be 1 to 1000", "--key-streams", "1001")]
    [InlineData("postRoomBytes: must be 16777216 to 68719476736", "--post-room-bytes", "16777215")]
    [InlineData("postRoomBytes: must be 16777216 to 68719476736", "--post-room-bytes", "68719476737")]
    [InlineData("postRoomBytes: \"256 MB\" is not a whole number", "--post-room-bytes", "256 MB")]
    [InlineData("not one of Open, Keys", "--access", "everyone")]
    [InlineData("not one of", "--log-level", "loud")]
    [InlineData("not one of", "--log-level", "2")]
    [InlineData("not a number of seconds", "--shutdown-timeout", "3601")]
    [InlineData("not a number of seconds", "--shutdown-timeout", "-1")]
    [InlineData("not a number of seconds", "--shutdown-timeout", "NaN")]
    public void Read_Invalid_IsRefusedWithTheReason(string reason, params string[] args) => AssertRefused(reason, args);

    [Theory]
    [InlineData("""{ "lisen": "127.0.0.1:1" }""", "lisen: unknown option")]
    [InlineData("""{ "store": { "path": "x" } }""", "store: unknown option, or not a single value")]
    [InlineData("""{ "store": """, "not a valid configuration file")]
    public void Read_FileAtFault_IsRefusedWithTheReason(string json, string reason) =>
        AssertRefused(reason, "--config", Write(json));

    [Fact]
    public async Task Run_CannotStart_SaysWhyAndExitsWith2()
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var file = Write("this is no store, and long enough to be looked at as a database header; " + new string('.', 200));

        var code = await ServerProgram.RunAsync(
            ["--store", file, "--listen", "127.0.0.1:0", "--log-level", "none"], output, error, TestContext.Current.CancellationToken);

        Assert.Equal(ServerProgram.CannotStart, code);
        Assert.Contains("is not an SQLite database", error.ToString(), StringComparison.Ordinal);
        Assert.Empty(output.ToString());
    }

    [Fact]
    public async Task Run_UntilToldToStop_NamesItsAddressAndExitsWith0()
    {
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        using var output = new StringWriter();
        using var error = new StringWriter();
        var running = ServerProgram.RunAsync(
            ["--store", Path.Combine(_folder.FullName, "x.db"), "--listen", "127.0.0.1:0", "--log-level", "none"], output, error, stop.Token);
        while (output.ToString().Length == 0 && !running.IsCompleted)
        {
            await Task.Delay(20, TestContext.Current.CancellationToken);
        }

        await stop.CancelAsync();

        Assert.Equal(ServerProgram.Success, await running);
        Assert.Matches("^Listening on http://127.0.0.1:[1-9][0-9]*/", output.ToString());
        Assert.Empty(error.ToString());
    }

    private static void AssertRefused(string reason, params string[] args)
    {
        var error = Assert.Throws<ServerOptionsException>(() => ServerSettings.Read(args));
        Assert.Contains(reason, error.Message, StringComparison.Ordinal);
    }

    private string Write(string text)
    {
        var path = Path.Combine(_folder.FullName, "settings.json");
        File.WriteAllText(path, text);
        return path;
    }
}

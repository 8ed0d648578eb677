using System.Net.Security;
using System.Net.Sockets;
using System.Security.Authentication;
using System.Security.Cryptography.X509Certificates;

using ClearView.Server.Configuration;
using ClearView.Server.Security;
using ClearView.Server.Tests.Hosting;
using ClearView.V1;

using Grpc.Core;

using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace ClearView.Server.Tests.Security;

public sealed class TlsTests : CertificateTests
{
    [Fact]
    public async Task Call_AuthorityThatIsTrusted_IsAnsweredOverTls()
    {
        Files.Put(Authority.Server());
        await using var server = await StartAsync();

        Assert.Equal("https", server.Address.Scheme);
        Assert.NotEmpty((await server.Catalogue.GetCatalogueAsync(new GetCatalogueRequest(), cancellationToken: Token)).ToString());
    }

    [Fact]
    public async Task Call_AuthorityThatIsNotTrusted_FailsBeforeAnythingIsSent()
    {
        using var other = new TestAuthority("Other authority");
        Files.Put(Authority.Server());
        await using var server = await StartAsync();
        using var channel = server.NewChannel(CertificateFolder.Trusting(other));

        var error = await Assert.ThrowsAsync<RpcException>(() => new CatalogueService.CatalogueServiceClient(channel)
            .GetCatalogueAsync(new GetCatalogueRequest(), cancellationToken: Token).ResponseAsync);

        Assert.IsType<AuthenticationException>(Innermost(error));
    }

    // RFC 9325, section 3.1.1: TLS 1.0 and 1.1 must not be negotiated; 1.2 and 1.3 are.
    [Theory]
    [InlineData(SslProtocols.Tls12)]
    [InlineData(SslProtocols.Tls13)]
    public async Task Handshake_OfVersionsInUse_Succeeds(SslProtocols protocol)
    {
        Files.Put(Authority.Server());
        await using var server = await StartAsync();

        using var stream = await HandshakeAsync(server, protocol);

        Assert.Equal(protocol, stream.SslProtocol);
        Assert.Equal(SslApplicationProtocol.Http2, stream.NegotiatedApplicationProtocol);
    }

    // The client's own library refuses older versions here, so that only the server's choice can be looked at.
    [Fact]
    public void Handshake_OfOlderVersions_IsNotOffered()
    {
        Files.Put(Authority.Server());
        var material = TlsMaterial.From(CertificateFiles.Read(Files.Secure(new ServerOptions())));

        Assert.Equal(SslProtocols.Tls12 | SslProtocols.Tls13, material.ToOptions().EnabledSslProtocols);
    }

    [Fact]
    public async Task ChangedFiles_AreUsedByNewConnections_WhileOldOnesGoOn()
    {
        Files.Put(Authority.Server("first"));
        await using var server = await StartAsync();
        await server.Catalogue.GetCatalogueAsync(new GetCatalogueRequest(), cancellationToken: Token);
        Assert.Equal("CN=first", await SubjectAsync(server));

        Files.Put(Authority.Server("second"));

        Assert.Equal("CN=second", await SubjectAsync(server));
        await server.Catalogue.GetCatalogueAsync(new GetCatalogueRequest(), cancellationToken: Token);
    }

    [Fact]
    public async Task ChangedFilesAtFault_LeaveTheCertificateInUse_AndAreToldOnce()
    {
        using var logs = new RecordingLogs();
        Files.Put(Authority.Server("first"));
        await using var server = await StartAsync(logs);

        await File.WriteAllTextAsync(Files.Certificate, "-----BEGIN CERTIFICATE-----\nbroken\n-----END CERTIFICATE-----\n", Token);
        Assert.Equal("CN=first", await SubjectAsync(server));
        Assert.Equal("CN=first", await SubjectAsync(server));
        Assert.Single(logs.Lines, line => line.Level == LogLevel.Warning);

        // The certificate of a change is there before its key: they do not belong together until both are.
        var second = Authority.Server("second");
        await File.WriteAllTextAsync(Files.Certificate, second.ExportCertificatePem(), Token);
        Assert.Equal("CN=first", await SubjectAsync(server));
        await File.WriteAllTextAsync(Files.Key, CertificateFolder.KeyOf(second), Token);
        Assert.Equal("CN=second", await SubjectAsync(server));

        File.Delete(Files.Key);
        Assert.Equal("CN=second", await SubjectAsync(server));
    }

    [Fact]
    public async Task Pkcs12AndPasswords_AreRead()
    {
        const string password = "the password of the key";
        var certificate = Authority.Server("with-password");
        await File.WriteAllTextAsync(Files.PathOf("password.txt"), password + "\n", Token);
        await File.WriteAllBytesAsync(Files.PathOf("server.p12"), certificate.Export(X509ContentType.Pkcs12, password), Token);
        await File.WriteAllTextAsync(Files.Certificate, certificate.ExportCertificatePem(), Token);
        await File.WriteAllTextAsync(Files.Key, CertificateFolder.EncryptedKeyOf(certificate, password), Token);

        foreach (var (file, key) in new[] { (Files.PathOf("server.p12"), null), (Files.Certificate, Files.Key) })
        {
            using var logs = new RecordingLogs();
            await using var server = await TestServer.StartAsync(
                services => services.AddSingleton<ILoggerProvider>(logs),
                LogLevel.Trace,
                options => options with { Certificate = file, CertificateKey = key, CertificatePasswordFile = Files.PathOf("password.txt") });
            Assert.Equal("CN=with-password", await SubjectAsync(server));
            Assert.DoesNotContain(logs.Lines, line => line.Message.Contains(password, StringComparison.Ordinal));
        }
    }

    [Theory]
    [InlineData("missing.pem")]
    [InlineData("empty.pem")]
    [InlineData("text.pem")]
    public async Task Start_CertificateThatCannotBeUsed_IsRefusedWithTheReason(string name)
    {
        await File.WriteAllTextAsync(Files.PathOf("empty.pem"), "", Token);
        await File.WriteAllTextAsync(Files.PathOf("text.pem"), "-----BEGIN NOTHING-----", Token);

        var error = await Assert.ThrowsAsync<ServerOptionsException>(
            () => TestServer.StartAsync(configure: options => options with { Certificate = Files.PathOf(name) }));

        Assert.Contains("cannot be used", error.Message, StringComparison.Ordinal);
        Assert.Contains(name, error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Start_KeyOfAnotherCertificate_IsRefused()
    {
        Files.Put(Authority.Server());
        await File.WriteAllTextAsync(Files.Key, CertificateFolder.KeyOf(Authority.Server()), Token);

        await Assert.ThrowsAsync<ServerOptionsException>(() => StartAsync());
    }

    private static Exception Innermost(RpcException error)
    {
        var inner = error.Status.DebugException!;
        while (inner.InnerException is { } deeper)
        {
            inner = deeper;
        }

        return inner;
    }

    private async Task<string> SubjectAsync(TestServer server)
    {
        using var stream = await HandshakeAsync(server, SslProtocols.None);
        return stream.RemoteCertificate!.Subject;
    }

    private async Task<SslStream> HandshakeAsync(TestServer server, SslProtocols protocol)
    {
        var socket = new TcpClient();
        await socket.ConnectAsync("127.0.0.1", server.Address.Port, Token);
        var stream = new SslStream(socket.GetStream(), leaveInnerStreamOpen: false);
        using var handler = Trusting();
        var options = handler.SslOptions;
        options.TargetHost = "127.0.0.1";
        options.EnabledSslProtocols = protocol;
        options.ApplicationProtocols = [SslApplicationProtocol.Http2];
        await stream.AuthenticateAsClientAsync(options, Token);
        return stream;
    }

    private Task<TestServer> StartAsync(RecordingLogs? logs = null) => TestServer.StartAsync(
        services =>
        {
            if (logs is not null)
            {
                services.AddSingleton<ILoggerProvider>(logs);
            }
        },
        logs is null ? LogLevel.None : LogLevel.Information,
        Files.Secure,
        Trusting);
}

namespace ClearView.Server.Tests.Security;

/// <summary>Tests with an authority of their own and files for what it issues.</summary>
public abstract class CertificateTests : IDisposable
{
    private protected CertificateTests()
    {
    }

    private protected static CancellationToken Token => TestContext.Current.CancellationToken;

    /// <summary>The authority that server and clients trust.</summary>
    private protected TestAuthority Authority { get; } = new("Plant authority");

    /// <summary>The files that the server reads.</summary>
    private protected CertificateFolder Files { get; } = new();

    public void Dispose()
    {
        Authority.Dispose();
        Files.Dispose();
        GC.SuppressFinalize(this);
    }

    /// <summary>A handler of a client that trusts the authority.</summary>
    private protected SocketsHttpHandler Trusting() => CertificateFolder.Trusting(Authority);
}

using System.Net;

using ClearView.Records.Postgres;

namespace ClearView.Server.Configuration;

/// <summary>How a server is set up. Every value has been checked when an instance exists, but for what files hold.</summary>
public sealed record ServerOptions
{
    private readonly string _store = "clearview.db";
    private readonly string? _storePasswordFile;
    private readonly string? _auditKeyFile;
    private readonly int _keyRequestsPerSecond = 1000;
    private readonly int _keyStreams = 32;
    private readonly long _postRoomBytes = 256 * 1024 * 1024;
    private readonly TimeSpan _shutdownTimeout = TimeSpan.FromSeconds(30);

    /// <summary>
    /// Address and port to listen on; port 0 takes a free one. Another address than a loopback one needs <see cref="Certificate"/> and
    /// <see cref="AccessMode.Keys"/>. Default 127.0.0.1:5180.
    /// </summary>
    public IPEndPoint Listen { get; init; } = new(IPAddress.Loopback, 5180);

    /// <summary>
    /// File with the server's certificate and those between it and its authority, in PEM or PKCS #12; <see langword="null"/> serves
    /// without TLS. Files of certificates are read again when they change.
    /// </summary>
    public string? Certificate { get; init; }

    /// <summary>File with the private key in PEM; <see langword="null"/> where the certificate's file holds it.</summary>
    public string? CertificateKey { get; init; }

    /// <summary>File whose first line is the password of the private key; <see langword="null"/> where it has none.</summary>
    public string? CertificatePasswordFile { get; init; }

    /// <summary>File with the authorities, in PEM, whose client certificates are accepted; <see langword="null"/> accepts none.</summary>
    public string? ClientCertificateAuthorities { get; init; }

    /// <summary>Who may call. Default <see cref="AccessMode.Open"/>.</summary>
    public AccessMode Access { get; init; }

    /// <summary>Calls of one key per second, on average; twice as many at once. 1 to 1 000 000. Default 1000. A stream is one call.</summary>
    /// <exception cref="ServerOptionsException">The number is out of range.</exception>
    public int KeyRequestsPerSecond
    {
        get => _keyRequestsPerSecond;
        init => _keyRequestsPerSecond = value is >= 1 and <= 1_000_000
            ? value
            : throw new ServerOptionsException("keyRequestsPerSecond: must be 1 to 1000000.");
    }

    /// <summary>Open streams of one key, and as many watches of readings beside them. 1 to 1000. Default 32.</summary>
    /// <exception cref="ServerOptionsException">The number is out of range.</exception>
    public int KeyStreams
    {
        get => _keyStreams;
        init => _keyStreams = value is >= 1 and <= 1000 ? value : throw new ServerOptionsException("keyStreams: must be 1 to 1000.");
    }

    /// <summary>
    /// Bytes on the wire of posts, of all callers together, that are taken before they are recorded; further posts wait. 16 777 216 (16 MB,
    /// the largest message of a stream) to 68 719 476 736 (64 GB). Default 268 435 456 (256 MB).
    /// </summary>
    /// <exception cref="ServerOptionsException">The number is out of range.</exception>
    public long PostRoomBytes
    {
        get => _postRoomBytes;
        init => _postRoomBytes = value is >= 16L * 1024 * 1024 and <= 64L * 1024 * 1024 * 1024
            ? value
            : throw new ServerOptionsException("postRoomBytes: must be 16777216 to 68719476736.");
    }

    /// <summary>
    /// The store: a file, created where it is missing, or a PostgreSQL database as "postgres://user@host:port/database" or
    /// "postgres:" before a connection string; without a password. Default "clearview.db" in the working directory.
    /// </summary>
    /// <exception cref="ServerOptionsException">
    /// The name is empty, is a folder, its folder does not exist, or it does not name a database rightly.
    /// </exception>
    public string Store
    {
        get => _store;
        init => _store = CheckedStore(value);
    }

    /// <summary>File whose first line is the password of the database; <see langword="null"/> leaves it to PGPASSWORD.</summary>
    /// <exception cref="ServerOptionsException">The name is empty.</exception>
    public string? StorePasswordFile
    {
        get => _storePasswordFile;
        init => _storePasswordFile = value is null || !string.IsNullOrWhiteSpace(value)
            ? value
            : throw new ServerOptionsException("storePasswordFile: names no file.");
    }

    /// <summary>File with the private key that signs extracts (PEM, ECDSA on P-256); <see langword="null"/> for none.</summary>
    /// <exception cref="ServerOptionsException">The name is empty.</exception>
    public string? AuditKeyFile
    {
        get => _auditKeyFile;
        init => _auditKeyFile = value is null || !string.IsNullOrWhiteSpace(value)
            ? value
            : throw new ServerOptionsException("auditKeyFile: names no file.");
    }

    /// <summary>How long calls in flight may take to finish when the server stops, 0 to 1 hour. Default 30 s.</summary>
    /// <exception cref="ServerOptionsException">The time is outside 0 to 1 hour.</exception>
    public TimeSpan ShutdownTimeout
    {
        get => _shutdownTimeout;
        init => _shutdownTimeout = value >= TimeSpan.Zero && value <= TimeSpan.FromHours(1)
            ? value
            : throw new ServerOptionsException("shutdownTimeoutSeconds: must be 0 to 3600.");
    }

    /// <summary>Least severe log line that is written. Default <see cref="LogLevel.Information"/>.</summary>
    public LogLevel LogLevel { get; init; } = LogLevel.Information;

    /// <summary>Form of the log lines. Default <see cref="LogFormat.Text"/>.</summary>
    public LogFormat LogFormat { get; init; } = LogFormat.Text;

    /// <summary>Checks what no option can tell alone.</summary>
    /// <exception cref="ServerOptionsException">Options contradict one another, or would leave the server open to a network.</exception>
    internal void CheckTogether()
    {
        if (!IPAddress.IsLoopback(Listen.Address) && (Certificate is null || Access == AccessMode.Open))
        {
            throw new ServerOptionsException(
                $"listen: {Listen} is not a loopback address, so that calls must be encrypted and callers identified: "
                + "set certificate and access = keys, or use 127.0.0.1 or [::1].");
        }

        if (Certificate is null && (CertificateKey ?? CertificatePasswordFile ?? ClientCertificateAuthorities) is { } file)
        {
            throw new ServerOptionsException($"certificate: is missing, and {file} says nothing without it.");
        }

        if (ClientCertificateAuthorities is not null && Access == AccessMode.Open)
        {
            throw new ServerOptionsException("clientCertificateAuthorities: needs access = keys; otherwise nobody is asked who they are.");
        }
    }

    /// <summary>What the database is opened with; it may hold the password.</summary>
    /// <exception cref="ServerOptionsException">The password file cannot be read.</exception>
    internal string ConnectionString()
    {
        try
        {
            return PostgresConnectionString.Parse(Store, StorePasswordFile);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new ServerOptionsException($"storePasswordFile: {StorePasswordFile} cannot be read: {error.Message}", error);
        }
    }

    private static string CheckedStore(string store)
    {
        if (PostgresConnectionString.IsOne(store))
        {
            try
            {
                PostgresConnectionString.Parse(store);
                return store;
            }
            catch (FormatException error)
            {
                throw new ServerOptionsException("store: " + error.Message, error);
            }
        }

        if (string.IsNullOrWhiteSpace(store))
        {
            throw new ServerOptionsException("store: names no file.");
        }

        var path = Path.GetFullPath(store);
        if (Directory.Exists(path))
        {
            throw new ServerOptionsException($"store: {path} is a folder; name a file in it.");
        }

        return Directory.Exists(Path.GetDirectoryName(path))
            ? path
            : throw new ServerOptionsException($"store: the folder of {path} does not exist; create it first.");
    }
}

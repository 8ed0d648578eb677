using System.Net;

using ClearView.Records.Postgres;

namespace ClearView.Server.Configuration;

/// <summary>How a server is set up. Every value has been checked when an instance exists, but for what the password file holds.</summary>
public sealed record ServerOptions
{
    private readonly IPEndPoint _listen = new(IPAddress.Loopback, 5180);
    private readonly string _store = "clearview.db";
    private readonly string? _storePasswordFile;
    private readonly string? _auditKeyFile;
    private readonly TimeSpan _shutdownTimeout = TimeSpan.FromSeconds(30);

    /// <summary>Address and port to listen on: a loopback address; port 0 takes a free one. Default 127.0.0.1:5180.</summary>
    /// <exception cref="ServerOptionsException">The address is not a loopback address.</exception>
    public IPEndPoint Listen
    {
        get => _listen;
        init => _listen = IPAddress.IsLoopback(value.Address)
            ? value
            : throw new ServerOptionsException(
                $"listen: {value} is not a loopback address. Calls are not encrypted and callers are not identified, "
                + "so that only this machine may be served: use 127.0.0.1 or [::1].");
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

using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Numerics;

using ClearView.Records.Postgres;

namespace ClearView.Server.Configuration;

/// <summary>Reads the options from file, environment and flags; the later of them wins.</summary>
internal static class ServerSettings
{
    /// <summary>Configuration file that is read from the working directory where it exists.</summary>
    public const string DefaultFile = "clearview.json";

    /// <summary>Prefix of environment variables, for example CLEARVIEW__LISTEN.</summary>
    public const string EnvironmentPrefix = "CLEARVIEW__";

    private const string ListenKey = "listen";
    private const string StoreKey = "store";
    private const string StorePasswordFileKey = "storePasswordFile";
    private const string AuditKeyFileKey = "auditKeyFile";
    private const string ShutdownTimeoutKey = "shutdownTimeoutSeconds";
    private const string LogLevelKey = "logLevel";
    private const string LogFormatKey = "logFormat";

    private const string CertificateKey = "certificate";
    private const string CertificateKeyKey = "certificateKey";
    private const string CertificatePasswordFileKey = "certificatePasswordFile";
    private const string ClientCertificateAuthoritiesKey = "clientCertificateAuthorities";
    private const string AccessKey = "access";
    private const string KeyRequestsPerSecondKey = "keyRequestsPerSecond";
    private const string KeyStreamsKey = "keyStreams";
    private const string PostRoomBytesKey = "postRoomBytes";

    private static readonly ImmutableArray<string> Keys =
    [
        ListenKey, StoreKey, StorePasswordFileKey, AuditKeyFileKey, CertificateKey, CertificateKeyKey, CertificatePasswordFileKey,
        ClientCertificateAuthoritiesKey, AccessKey, KeyRequestsPerSecondKey, KeyStreamsKey, PostRoomBytesKey,
        ShutdownTimeoutKey, LogLevelKey, LogFormatKey,
    ];

    /// <summary>Options from the sources that a server has.</summary>
    /// <param name="args">Flags, as "--store file" or "--store=file".</param>
    /// <returns>The options.</returns>
    /// <exception cref="ServerOptionsException">Something is unknown or invalid.</exception>
    public static ServerOptions Read(IReadOnlyList<string> args)
    {
        var flags = CommandLineFlags.Parse(args);
        var configuration = new ConfigurationBuilder();
        AddFile(configuration, flags.ConfigFile);
        var root = configuration
            .AddEnvironmentVariables(EnvironmentPrefix)
            .AddInMemoryCollection(flags.Settings)
            .Build();
        RefuseUnknown(root);
        return Bind(root);
    }

    private static void AddFile(ConfigurationBuilder configuration, string? named)
    {
        var path = Path.GetFullPath(named ?? DefaultFile);
        if (named is not null && !File.Exists(path))
        {
            throw new ServerOptionsException($"--config: {path} does not exist.");
        }

        try
        {
            configuration.AddJsonFile(path, optional: true, reloadOnChange: false).Build();
        }
        catch (InvalidDataException error)
        {
            throw new ServerOptionsException(
                $"{path} is not a valid configuration file: {error.InnerException?.Message ?? error.Message}", error);
        }
    }

    // A misspelt option that is passed over in silence is a wrong set-up that nobody sees.
    private static void RefuseUnknown(IConfigurationRoot root)
    {
        foreach (var section in root.GetChildren())
        {
            if (!Keys.Contains(section.Key, StringComparer.OrdinalIgnoreCase) || section.Value is null)
            {
                throw new ServerOptionsException(
                    $"{section.Key}: unknown option, or not a single value. Options: {string.Join(", ", Keys)}.");
            }
        }
    }

    private static ServerOptions Bind(IConfigurationRoot root)
    {
        var options = new ServerOptions();
        if (root[StorePasswordFileKey] is not null && !PostgresConnectionString.IsOne(root[StoreKey] ?? options.Store))
        {
            throw new ServerOptionsException($"{StorePasswordFileKey}: the store is a file, which has no password; name a database as the store.");
        }

        options = options with
        {
            Listen = root[ListenKey] is { } listen ? ParseListen(listen) : options.Listen,
            Store = root[StoreKey] ?? options.Store,
            StorePasswordFile = root[StorePasswordFileKey] ?? options.StorePasswordFile,
            AuditKeyFile = root[AuditKeyFileKey] ?? options.AuditKeyFile,
            Certificate = FileName(root, CertificateKey),
            CertificateKey = FileName(root, CertificateKeyKey),
            CertificatePasswordFile = FileName(root, CertificatePasswordFileKey),
            ClientCertificateAuthorities = FileName(root, ClientCertificateAuthoritiesKey),
            Access = root[AccessKey] is { } access ? ParseName<AccessMode>(AccessKey, access) : options.Access,
            KeyRequestsPerSecond = root[KeyRequestsPerSecondKey] is { } rate ? ParseCount<int>(KeyRequestsPerSecondKey, rate) : options.KeyRequestsPerSecond,
            KeyStreams = root[KeyStreamsKey] is { } streams ? ParseCount<int>(KeyStreamsKey, streams) : options.KeyStreams,
            PostRoomBytes = root[PostRoomBytesKey] is { } bytes ? ParseCount<long>(PostRoomBytesKey, bytes) : options.PostRoomBytes,
            ShutdownTimeout = root[ShutdownTimeoutKey] is { } seconds ? ParseSeconds(seconds) : options.ShutdownTimeout,
            LogLevel = root[LogLevelKey] is { } level ? ParseName<LogLevel>(LogLevelKey, level) : options.LogLevel,
            LogFormat = root[LogFormatKey] is { } format ? ParseName<LogFormat>(LogFormatKey, format) : options.LogFormat,
        };
        options.CheckTogether();
        return options;
    }

    private static string? FileName(IConfigurationRoot root, string key) => root[key] is not { } name || !string.IsNullOrWhiteSpace(name)
        ? root[key]
        : throw new ServerOptionsException($"{key}: names no file.");

    private static IPEndPoint ParseListen(string text)
    {
        const string localhost = "localhost:";
        var address = text.StartsWith(localhost, StringComparison.OrdinalIgnoreCase)
            ? "127.0.0.1:" + text[localhost.Length..]
            : text;

        // Without a colon behind the address a port would silently be 0.
        var hasPort = address.LastIndexOf(':') > address.LastIndexOf(']') && (address.Contains('[') || address.Contains('.'));
        return hasPort && IPEndPoint.TryParse(address, out var endPoint)
            ? endPoint
            : throw new ServerOptionsException(
                $"listen: \"{text}\" is not an address with a port, such as 127.0.0.1:5180 or [::1]:5180.");
    }

    private static TimeSpan ParseSeconds(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var seconds) && seconds is >= 0 and <= 3600
            ? TimeSpan.FromSeconds(seconds)
            : throw new ServerOptionsException($"{ShutdownTimeoutKey}: \"{text}\" is not a number of seconds from 0 to 3600.");

    private static T ParseCount<T>(string key, string text)
        where T : struct, IBinaryInteger<T> =>
        T.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count)
            ? count
            : throw new ServerOptionsException($"{key}: \"{text}\" is not a whole number.");

    private static T ParseName<T>(string key, string text)
        where T : struct, Enum =>
        Enum.GetNames<T>().Contains(text, StringComparer.OrdinalIgnoreCase)
            ? Enum.Parse<T>(text, ignoreCase: true)
            : throw new ServerOptionsException($"{key}: \"{text}\" is not one of {string.Join(", ", Enum.GetNames<T>())}.");
}

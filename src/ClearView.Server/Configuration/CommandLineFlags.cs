namespace ClearView.Server.Configuration;

/// <summary>Flags of the server's command line, not yet checked for their values.</summary>
/// <param name="ConfigFile">Configuration file, where one is named.</param>
/// <param name="Settings">Options by their keys.</param>
internal sealed record CommandLineFlags(string? ConfigFile, IReadOnlyDictionary<string, string?> Settings)
{
    private const string ConfigFlag = "--config";

    private static readonly Dictionary<string, string> KeysByFlag = new(StringComparer.Ordinal)
    {
        ["--listen"] = "listen",
        ["--store"] = "store",
        ["--store-password-file"] = "storePasswordFile",
        ["--audit-key-file"] = "auditKeyFile",
        ["--certificate"] = "certificate",
        ["--certificate-key"] = "certificateKey",
        ["--certificate-password-file"] = "certificatePasswordFile",
        ["--client-certificate-authorities"] = "clientCertificateAuthorities",
        ["--access"] = "access",
        ["--key-requests-per-second"] = "keyRequestsPerSecond",
        ["--key-streams"] = "keyStreams",
        ["--post-room-bytes"] = "postRoomBytes",
        ["--shutdown-timeout"] = "shutdownTimeoutSeconds",
        ["--log-level"] = "logLevel",
        ["--log-format"] = "logFormat",
    };

    /// <summary>Takes the flags apart.</summary>
    /// <param name="args">Flags, as "--store file" or "--store=file".</param>
    /// <returns>The flags.</returns>
    /// <exception cref="ServerOptionsException">A flag is unknown, has no value, or stands twice.</exception>
    public static CommandLineFlags Parse(IReadOnlyList<string> args)
    {
        string? configFile = null;
        Dictionary<string, string?> settings = [];
        for (var i = 0; i < args.Count; i++)
        {
            var equals = args[i].IndexOf('=', StringComparison.Ordinal);
            var flag = equals < 0 ? args[i] : args[i][..equals];
            if (flag != ConfigFlag && !KeysByFlag.ContainsKey(flag))
            {
                throw new ServerOptionsException(
                    $"{flag}: unknown flag. Flags: {ConfigFlag}, {string.Join(", ", KeysByFlag.Keys)}.");
            }

            if (equals < 0 && ++i == args.Count)
            {
                throw new ServerOptionsException($"{flag}: has no value.");
            }

            var value = equals < 0 ? args[i] : args[i][(equals + 1)..];
            var isFirst = flag == ConfigFlag
                ? configFile is null
                : settings.TryAdd(KeysByFlag[flag], value);
            configFile = flag == ConfigFlag ? configFile ?? value : configFile;
            if (!isFirst)
            {
                throw new ServerOptionsException($"{flag}: stands twice.");
            }
        }

        return new CommandLineFlags(configFile, settings);
    }
}

using System.Collections.Immutable;

namespace ClearView.Client;

/// <summary>The servers that a client may call: one, or several that share a store, any of which answers any call.</summary>
public sealed class ServerAddresses
{
    /// <summary>Where a server listens unless it is told otherwise.</summary>
    public const string Default = "127.0.0.1:5180";

    private const int Most = 64;

    private ServerAddresses(ImmutableArray<Uri> all) => All = all;

    /// <summary>The servers, 1 to 64, each once, as http or https addresses of one scheme without a path.</summary>
    public ImmutableArray<Uri> All { get; }

    /// <summary>One server.</summary>
    /// <param name="address">Its address, for example http://127.0.0.1:5180 (HTTP/2 without TLS).</param>
    /// <exception cref="ArgumentException">It is not an absolute http or https address.</exception>
    public static ServerAddresses Of(Uri address)
    {
        ArgumentNullException.ThrowIfNull(address);
        return IsServer(address)
            ? new ServerAddresses([address])
            : throw new ArgumentException($"\"{address}\" is not an absolute http or https address.", nameof(address));
    }

    /// <summary>Reads addresses as people write them.</summary>
    /// <param name="text">HOST:PORT, or several with commas between; without a scheme it is HTTP/2 without TLS.</param>
    /// <exception cref="FormatException">One of them is no address, comes twice, or has another scheme than the first.</exception>
    public static ServerAddresses Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var all = text.Split(',', StringSplitOptions.TrimEntries).Select(ParseOne).ToImmutableArray();
        if (all.Length > Most)
        {
            throw new FormatException(FormattableString.Invariant($"{all.Length} servers are named; at most {Most} can be"));
        }

        for (var i = 0; i < all.Length; i++)
        {
            if (all[i].Scheme != all[0].Scheme)
            {
                throw new FormatException($"\"{text}\" mixes http and https; servers that share a store are called in one way");
            }

            if (all[..i].Contains(all[i]))
            {
                throw new FormatException($"\"{all[i].Authority}\" is named twice");
            }
        }

        return new ServerAddresses(all);
    }

    /// <summary>The servers as people write them, without scheme: HOST:PORT, with commas between.</summary>
    public override string ToString() => string.Join(", ", All.Select(address => address.Authority));

    private static Uri ParseOne(string text)
    {
        var full = text.Contains("://", StringComparison.Ordinal) ? text : $"http://{text}";
        return Uri.TryCreate(full, UriKind.Absolute, out var uri) && IsServer(uri)
            ? uri
            : throw new FormatException($"\"{text}\" is not a server's address; write HOST:PORT, for example {Default}");
    }

    private static bool IsServer(Uri address) =>
        address.IsAbsoluteUri && (address.Scheme == Uri.UriSchemeHttp || address.Scheme == Uri.UriSchemeHttps);
}

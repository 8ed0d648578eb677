using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>How a database is named.</summary>
public static class PostgresConnectionString
{
    private const string Prefix = "postgres:";
    private const string UrlPrefix = "postgres://";
    private const int ConnectSeconds = 5;
    private const int KeepAliveSeconds = 10;

    /// <summary>Whether the name of a store is of a database, and not of a file.</summary>
    /// <param name="store">For example "postgres://clearview@db.plant:5432/line3" or "line3.db".</param>
    public static bool IsOne(string store)
    {
        ArgumentNullException.ThrowIfNull(store);
        return store.StartsWith(Prefix, StringComparison.Ordinal);
    }

    /// <summary>Checks the name of a database, and turns it into a connection string.</summary>
    /// <param name="store">"postgres://user@host:port/database", or "postgres:" before a connection string of Npgsql.</param>
    /// <param name="passwordFile">File whose first line is the password; <see langword="null"/> leaves it to PGPASSWORD.</param>
    /// <returns>The connection string; it may hold the password, so that it belongs in no log.</returns>
    /// <exception cref="FormatException">It is neither, holds a password, or names no host or database; the message says which.</exception>
    /// <exception cref="IOException">The password file cannot be read.</exception>
    public static string Parse(string store, string? passwordFile = null)
    {
        ArgumentNullException.ThrowIfNull(store);
        var builder = store.StartsWith(UrlPrefix, StringComparison.Ordinal) ? OfUrl(store) : OfKeywords(store);
        if (builder.Password is not null)
        {
            throw new FormatException("the password does not belong in the name of the store: set PGPASSWORD, or name a password file.");
        }

        if (string.IsNullOrEmpty(builder.Host) || string.IsNullOrEmpty(builder.Database))
        {
            throw new FormatException("names no host or no database; expected postgres://user@host:port/database.");
        }

        if (passwordFile is not null)
        {
            builder.Password = File.ReadLines(passwordFile).FirstOrDefault() ?? "";
        }

        return builder.ConnectionString;
    }

    /// <summary>The database in words, without its password.</summary>
    /// <param name="connectionString">A connection string of Npgsql.</param>
    public static string Describe(string connectionString)
    {
        var builder = new NpgsqlConnectionStringBuilder(connectionString);
        return FormattableString.Invariant($"postgres://{builder.Username}@{builder.Host}:{builder.Port}/{builder.Database}");
    }

    /// <summary>Adds what the store needs of each connection.</summary>
    internal static string Complete(string connectionString)
    {
        var builder = new NpgsqlConnectionStringBuilder(connectionString)
        {
            SearchPath = PostgresMigrator.SchemaName,
            ApplicationName = "ClearView",
            IncludeErrorDetail = false,
        };

        // A database that does not answer is told soon: who posts can repeat.
        builder.Timeout = Math.Min(builder.Timeout, ConnectSeconds);
        builder.KeepAlive = builder.KeepAlive == 0 ? KeepAliveSeconds : builder.KeepAlive;
        return builder.ConnectionString;
    }

    /// <summary>The same for connections that only read.</summary>
    internal static string CompleteReadOnly(string connectionString)
    {
        var builder = new NpgsqlConnectionStringBuilder(Complete(connectionString));
        builder.Options = (builder.Options + " -c default_transaction_read_only=on").TrimStart();
        return builder.ConnectionString;
    }

    private static NpgsqlConnectionStringBuilder OfUrl(string store)
    {
        if (!Uri.TryCreate(store, UriKind.Absolute, out var url) || url.Query.Length > 0 || url.Fragment.Length > 0)
        {
            throw new FormatException("is not of the form postgres://user@host:port/database.");
        }

        var builder = new NpgsqlConnectionStringBuilder
        {
            Host = url.Host,
            Database = Uri.UnescapeDataString(url.AbsolutePath.TrimStart('/')),
        };
        if (url.Port > 0)
        {
            builder.Port = url.Port;
        }

        var colon = url.UserInfo.IndexOf(':', StringComparison.Ordinal);
        builder.Username = url.UserInfo.Length == 0 ? null : Uri.UnescapeDataString(colon < 0 ? url.UserInfo : url.UserInfo[..colon]);
        builder.Password = colon < 0 ? null : Uri.UnescapeDataString(url.UserInfo[(colon + 1)..]);
        return builder;
    }

    private static NpgsqlConnectionStringBuilder OfKeywords(string store)
    {
        try
        {
            return new NpgsqlConnectionStringBuilder(store[Prefix.Length..]);
        }
        catch (Exception error) when (error is ArgumentException or FormatException or KeyNotFoundException)
        {
            // The message of the parser may repeat what was typed, a password too.
            throw new FormatException("is neither postgres://user@host:port/database nor postgres: before a connection string of Npgsql.");
        }
    }
}

using ClearView.Records.Model;
using ClearView.Records.Postgres;
using ClearView.Records.Sqlite;

namespace ClearView.Console.Commands.Records;

/// <summary>Stores by the name that a command line gives them.</summary>
internal static class StoreName
{
    /// <summary>Opens a store.</summary>
    /// <param name="store">A file, or postgres://USER@HOST:PORT/DATABASE.</param>
    /// <param name="passwordFile">File with the password of the database; <see langword="null"/> leaves it to PGPASSWORD.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="cancellation">Stops the opening.</param>
    public static async Task<IStore> OpenAsync(string store, string? passwordFile, TimeProvider clock, CancellationToken cancellation) =>
        PostgresConnectionString.IsOne(store)
            ? await PostgresStore.OpenAsync(PostgresConnectionString.Parse(store, passwordFile), clock, cancellation)
            : SqliteStore.Open(store, clock);

    /// <summary>Opens a store to look at its chains; nothing is written to it, created or brought forward.</summary>
    /// <param name="store">A file, or postgres://USER@HOST:PORT/DATABASE.</param>
    /// <param name="passwordFile">File with the password of the database; <see langword="null"/> leaves it to PGPASSWORD.</param>
    /// <param name="cancellation">Stops the opening.</param>
    public static async Task<IAuditedStore> OpenAuditedAsync(string store, string? passwordFile, CancellationToken cancellation) =>
        PostgresConnectionString.IsOne(store)
            ? await AuditedDatabase.OpenAsync(PostgresConnectionString.Parse(store, passwordFile), cancellation)
            : AuditedStoreFile.Open(store);
}

using System.Data.Common;

using ClearView.Records.Model;

namespace ClearView.Records.Sql;

/// <summary>What reading a store needs of its engine.</summary>
internal interface IReadDatabase
{
    /// <summary>Questions of a verification.</summary>
    IAuditQueries AuditQueries { get; }

    /// <summary>Reads beside those who write, on another thread.</summary>
    /// <param name="read">Reads through the connection, synchronously. May run again where the connection was lost.</param>
    /// <param name="cancellationToken">Stops the wait.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<T> ReadAsync<T>(Func<DbConnection, T> read, CancellationToken cancellationToken);

    /// <summary>Begins a transaction that reads as of one moment.</summary>
    DbTransaction BeginSnapshot(DbConnection connection);
}

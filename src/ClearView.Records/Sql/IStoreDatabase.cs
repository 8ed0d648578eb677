using System.Data.Common;

using ClearView.Records.Exchange;
using ClearView.Records.Model;

namespace ClearView.Records.Sql;

/// <summary>What an engine does in its own way; everything else is shared.</summary>
internal interface IStoreDatabase
{
    /// <summary>Condition that finds a reading by "@id" through a key.</summary>
    string FindByIdCondition { get; }

    /// <summary>Questions of a verification.</summary>
    IAuditQueries AuditQueries { get; }

    /// <summary>Form in which an identifier travels as a parameter; it sorts by the bytes of its text.</summary>
    object IdValue(Guid id);

    /// <summary>Reads beside the writer, on another thread.</summary>
    /// <param name="read">Reads through the connection, synchronously. May run again where the connection was lost.</param>
    /// <param name="cancellationToken">Stops the wait.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<T> ReadAsync<T>(Func<DbConnection, T> read, CancellationToken cancellationToken);

    /// <summary>Begins a transaction that reads as of one moment.</summary>
    DbTransaction BeginSnapshot(DbConnection connection);

    /// <summary>Writes rows as they were stored elsewhere, in one transaction.</summary>
    /// <param name="fill">Hands the rows over, and may read them back through the connection. When it throws, nothing is kept.</param>
    /// <param name="cancellationToken">Stops the wait.</param>
    Task<T> ImportAsync<T>(Func<DbConnection, IRowSink, T> fill, CancellationToken cancellationToken)
        where T : class;

    /// <summary>Queues a reading; the task completes when it is durable.</summary>
    Task<AppendOutcome> AppendAsync(ReadingEntry entry, WriteLane? lane, CancellationToken cancellationToken);

    /// <summary>Queues a document; the task completes when it is durable.</summary>
    Task<StoreVersionOutcome> StoreAsync(VersionedKind kind, VersionedEntry entry, CancellationToken cancellationToken);

    /// <summary>Makes sure that the store is there and takes readings.</summary>
    /// <exception cref="StoreUnavailableException">It is not.</exception>
    Task CheckAsync(CancellationToken cancellationToken);
}

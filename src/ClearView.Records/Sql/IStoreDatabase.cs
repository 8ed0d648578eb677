using System.Data.Common;

using ClearView.Records.Exchange;
using ClearView.Records.Model;
using ClearView.Records.Writing;

namespace ClearView.Records.Sql;

/// <summary>What an engine does in its own way; everything else is shared.</summary>
internal interface IStoreDatabase : IReadDatabase
{
    /// <summary>Condition that finds a reading by "@id" through a key.</summary>
    string FindByIdCondition { get; }

    /// <summary>Form in which an identifier travels as a parameter; it sorts by the bytes of its text.</summary>
    object IdValue(Guid id);

    /// <summary>Whether other servers may write too.</summary>
    bool IsShared { get; }

    /// <summary>Wakes those who wait for something new.</summary>
    Changes Changes { get; }

    /// <summary>The statement that lists readings with "@after" &lt; sequence &lt;= "@through", at most "@limit" of them.</summary>
    /// <param name="filters">More conditions on the table of readings, each beginning with " AND ".</param>
    string SelectRecorded(string filters);

    /// <summary>The last place in the order of recording before which nothing can be added any more.</summary>
    /// <param name="connection">A connection outside of a transaction: rows are to be read as of a later moment.</param>
    /// <param name="beforeSignals">Whether readings count whose signals are not stored yet.</param>
    long LastListable(DbConnection connection, bool beforeSignals);

    /// <summary>Whether another server may have recorded something between two places, or may yet.</summary>
    bool MayHoldOthers(long after, long before);

    /// <summary>Lists what other servers recorded.</summary>
    /// <param name="connection">A connection outside of a transaction.</param>
    /// <param name="query">Which readings.</param>
    OthersPage ListOthers(DbConnection connection, OthersQuery query);

    /// <summary>Stores the signals of a reading where there are any, and lets it be listed.</summary>
    Task SettleAsync(string line, long sequence, byte[] signals);

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

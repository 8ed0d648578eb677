using System.Data.Common;
using System.Globalization;

using ClearView.Records.Model;
using ClearView.Records.Retention;
using ClearView.Records.Sql;

namespace ClearView.Records.Exchange;

/// <summary>Copies a store into an empty one, of the same engine or the other.</summary>
public static class StoreCopy
{
    /// <summary>Copies everything; sequences, times of recording and versions stay as they are.</summary>
    /// <remarks>
    /// The source is read as of one moment. The target is written in one transaction and read back in it: it keeps the copy only
    /// when every count and the digest of every row are the same. A copy that breaks off leaves nothing and can be started again.
    /// </remarks>
    /// <param name="from">The source; it may be in use.</param>
    /// <param name="to">The target; nobody else may use it.</param>
    /// <param name="cancellationToken">Stops the copying.</param>
    /// <returns>What was copied.</returns>
    /// <exception cref="StoreCopyException">The source is an export or has retired months, the target is not empty, or what it gave back differs.</exception>
    /// <exception cref="StoreUnavailableException">One of the stores cannot be read or written now.</exception>
    public static async Task<StoreContents> RunAsync(IStore from, IStore to, CancellationToken cancellationToken)
    {
        var source = DatabaseOf(from);
        return await source.ReadAsync(
            connection =>
            {
                using var moment = source.BeginSnapshot(connection);
                if (ExportRows.Month(connection, moment, source.AuditQueries) is { } exported)
                {
                    throw new StoreCopyException($"The source is the export of {exported}: its chain has gaps that a copy could not explain. Copy the file as it is, or serve it.");
                }

                return RetiredRows.All(connection, moment) is []
                    ? RunAsync(connection, to, month: null, _ => { }, cancellationToken).GetAwaiter().GetResult()
                    : throw new StoreCopyException("Months of the source are retired: a copy would not know which identifiers are taken, nor prove what was taken out. Dump and restore the database instead.");
            },
            cancellationToken).ConfigureAwait(false);
    }

    /// <summary>Copies what a connection sees.</summary>
    /// <param name="from">A connection within a transaction that sees one moment.</param>
    /// <param name="to">The target; nobody else may use it.</param>
    /// <param name="month">Copies the readings of this month with all that belongs to them; <see langword="null"/> copies everything.</param>
    /// <param name="finish">Writes more into the target once the copy is compared, through its connection.</param>
    /// <param name="cancellationToken">Stops the copying.</param>
    internal static async Task<StoreContents> RunAsync(
        DbConnection from, IStore to, MonthSpan? month, Action<DbConnection> finish, CancellationToken cancellationToken)
    {
        try
        {
            return await DatabaseOf(to).ImportAsync(
                (own, sink) =>
                {
                    var copied = Copy(from, own, sink, month, cancellationToken);
                    finish(own);
                    return copied;
                },
                cancellationToken).ConfigureAwait(false);
        }
        catch (ArgumentException error) when (error.InnerException is StoreCopyException cause)
        {
            throw new StoreCopyException(cause.Message, error);
        }
        catch (ArgumentException error) when (error.InnerException is OperationCanceledException)
        {
            throw new OperationCanceledException("The copying was cancelled; the target is as it was.", error, cancellationToken);
        }
    }

    private static StoreContents Copy(DbConnection from, DbConnection to, IRowSink sink, MonthSpan? month, CancellationToken cancellationToken)
    {
        var target = new StoreWalk(to);
        if (!target.IsEmpty())
        {
            throw new StoreCopyException("The target is not empty; a store is copied into an empty one only. Name a new file or a new database.");
        }

        var sent = new StoreWalk(from, month).Run(sink, cancellationToken);
        var kept = target.Run(sink: null, cancellationToken);
        return sent == kept
            ? kept
            : throw new StoreCopyException(string.Create(
                CultureInfo.InvariantCulture,
                $"The copy differs from the source and was dropped: {sent.Readings} readings, {sent.Values} values, {sent.Documents} documents, {sent.Signals} readings with signals, {sent.Links} links, {sent.Sha256} sent; {kept.Readings}, {kept.Values}, {kept.Documents}, {kept.Signals}, {kept.Links}, {kept.Sha256} kept."));
    }

    private static IStoreDatabase DatabaseOf(IStore store) => store is IStoreBehind behind
        ? behind.Database
        : throw new ArgumentException("The store is of no known engine.", nameof(store));
}

using System.Collections.Immutable;
using System.Data.Common;

using ClearView.Records.Model;

namespace ClearView.Records.Sql;

/// <summary>Readings in the order of recording, in the tables of either engine.</summary>
internal sealed class SqlRecordedStore(IStoreDatabase database) : IRecordedStore
{
    // Filters may pass over nearly everything: places looked at per page are bounded, so that none takes long.
    private const long MostPlaces = 10_000;

    /// <inheritdoc/>
    public bool IsShared => database.IsShared;

    /// <inheritdoc/>
    public Task Changed => database.Changes.Next;

    /// <inheritdoc/>
    public Task<long> LastAsync(CancellationToken cancellationToken) =>
        database.ReadAsync(connection => database.LastListable(connection, beforeSignals: false), cancellationToken);

    /// <inheritdoc/>
    public Task<RecordedPage> ListAsync(RecordedQuery query, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(query);
        ArgumentOutOfRangeException.ThrowIfLessThan(query.PageSize, 1, nameof(query));
        ArgumentOutOfRangeException.ThrowIfLessThan(query.MaxPayloadBytes, 1, nameof(query));
        return database.ReadAsync(connection => List(connection, query, cancellationToken), cancellationToken);
    }

    /// <inheritdoc/>
    public Task<long> CompleteAsync(CancellationToken cancellationToken) =>
        database.ReadAsync(connection => database.LastListable(connection, beforeSignals: true), cancellationToken);

    /// <inheritdoc/>
    public bool MayHoldOthers(long after, long before) => database.MayHoldOthers(after, before);

    /// <inheritdoc/>
    public Task<OthersPage> ListOthersAsync(OthersQuery query, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(query);
        return database.ReadAsync(connection => database.ListOthers(connection, query), cancellationToken);
    }

    /// <inheritdoc/>
    public Task SettleAsync(StoredReading reading, ReadOnlyMemory<byte> signals)
    {
        ArgumentNullException.ThrowIfNull(reading);
        return database.SettleAsync(reading.Entry.Line, reading.Sequence, signals.ToArray());
    }

    /// <inheritdoc/>
    public Task<ImmutableArray<long>> ListLeftAsync(CancellationToken cancellationToken) =>
        database.ReadAsync(
            connection =>
            {
                // Up to there nobody who lives holds anything.
                var last = database.LastListable(connection, beforeSignals: false);
                using var list = Commands.Make(connection, "SELECT sequence FROM awaited_signal WHERE sequence <= @last ORDER BY sequence");
                list.Add("@last", last);
                using var rows = list.ExecuteReader();
                var left = ImmutableArray.CreateBuilder<long>();
                while (rows.Read())
                {
                    left.Add(rows.GetInt64(0));
                }

                return left.ToImmutable();
            },
            cancellationToken);

    // The last place is found out before the rows are read: what was in flight then is not among them, and what was not is there.
    private RecordedPage List(DbConnection connection, RecordedQuery query, CancellationToken cancellationToken)
    {
        var last = database.LastListable(connection, query.BeforeSignals);
        if (last <= query.After)
        {
            return new RecordedPage([], query.After, HasMore: false);
        }

        var through = last - query.After > MostPlaces ? query.After + MostPlaces : last;
        using var list = ReadingRows.RecordedCommand(connection, query, through, database);
        using var rows = list.ExecuteReader();
        var readings = ImmutableArray.CreateBuilder<StoredReading>();
        var bytes = 0L;
        while (rows.Read())
        {
            if (readings.Count == query.PageSize || bytes >= query.MaxPayloadBytes)
            {
                return new RecordedPage(readings.ToImmutable(), readings[^1].Sequence, HasMore: true);
            }

            cancellationToken.ThrowIfCancellationRequested();
            var reading = ReadingRows.Read(rows);
            bytes += reading.Entry.PayloadLength;
            readings.Add(reading);
        }

        return new RecordedPage(readings.ToImmutable(), through, through < last);
    }
}

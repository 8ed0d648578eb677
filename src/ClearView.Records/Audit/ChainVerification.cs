using System.Collections.Immutable;
using System.Data.Common;

using ClearView.Records.Exchange;
using ClearView.Records.Sql;

namespace ClearView.Records.Audit;

/// <summary>One walk over every chain, as of one moment.</summary>
/// <remarks>Holds a few hundred records at a time, however many there are.</remarks>
internal sealed class ChainVerification
{
    private const int LargestBatch = 400;

    private readonly DbConnection _connection;
    private readonly DbTransaction _transaction;
    private readonly ReadingRecords _readings;
    private readonly DocumentRecords _documents;
    private readonly RetiredRecords _retirements;
    private readonly string? _exportOf;
    private readonly ImmutableArray<IRecordSource> _sources;
    private readonly Dictionary<IRecordSource, long> _matched = [];
    private HashSet<long> _retiredInBatch = [];
    private long _links;
    private long _retired;

    public ChainVerification(DbConnection connection, DbTransaction transaction, IAuditQueries queries)
    {
        _connection = connection;
        _transaction = transaction;
        queries.Prepare(connection);
        _readings = new ReadingRecords(connection, transaction, queries);
        _documents = new DocumentRecords(connection, transaction);
        _retirements = new RetiredRecords(connection, transaction, queries);
        _sources = [_readings, _documents, new SignalRecords(connection, transaction, queries), _retirements];
        _exportOf = ExportRows.Month(connection, transaction, queries);
    }

    /// <summary>Walks until the first break, or to the end.</summary>
    /// <remarks>A noted head is of the whole store: an export, which has gaps, cannot show what stands before it, and does not hold it.</remarks>
    public AuditReport Run(IReadOnlyList<ChainHead> noted, IProgress<long>? progress, CancellationToken cancellationToken)
    {
        var heads = LinkRows.Heads(_connection, _transaction);
        var firstBreak = heads.Select(head => Walk(head.Chain, progress, cancellationToken)).FirstOrDefault(found => found is not null)
            ?? RecordOutside()
            ?? noted.Where(head => _exportOf is not null || !Holds(head)).Select(head => new ChainBreak(ChainFault.NotedHeadMissing, head.Chain, head.Position, Record: null)).FirstOrDefault();
        return new AuditReport(_links, _matched.GetValueOrDefault(_readings), _matched.GetValueOrDefault(_documents), heads, firstBreak)
        {
            Retired = _retired,
            ExportOfMonth = _exportOf ?? "",
            ExportSha256 = _exportOf is null ? "" : new StoreWalk(_connection).Run(sink: null, cancellationToken).Sha256,
            BrokenReadingId = firstBreak?.Record is { Kind: RecordKey.ReadingKind or RecordKey.SignalsKind } record ? _readings.IdOf(record.Number) : null,
        };
    }

    private ChainBreak? Walk(long chain, IProgress<long>? progress, CancellationToken cancellationToken)
    {
        var last = 0L;
        var previous = LinkHash.BeforeFirst;
        while (true)
        {
            cancellationToken.ThrowIfCancellationRequested();
            var batch = Links(chain, last);
            if (batch.Count == 0)
            {
                return null;
            }

            var hashes = Hashes(batch);
            foreach (var link in batch)
            {
                if (Check(link, last, previous, hashes) is { } fault)
                {
                    return fault;
                }

                (last, previous) = (link.Position, link.Hash);
                _links++;
            }

            progress?.Report(_links);
        }
    }

    private ChainBreak? Check(Link link, long last, ReadOnlyMemory<byte> previous, Dictionary<RecordKey, ReadOnlyMemory<byte>> hashes)
    {
        ChainBreak Break(ChainFault fault) => new(fault, link.Chain, link.Position, link.Record);
        var follows = link.Position == last + 1;

        // An export holds the links of its readings only: between them are gaps, over which no hash can be computed.
        if (!follows && _exportOf is null)
        {
            return new ChainBreak(ChainFault.LinkMissing, link.Chain, last + 1, Record: null);
        }

        if (follows && !link.Hash.Span.SequenceEqual(LinkHash.Of(previous.Span, link.Chain, link.Position, link.Record, link.RecordHash.Span)))
        {
            return Break(ChainFault.LinkChanged);
        }

        if (link.Record.Kind == RecordKey.HeadsKind)
        {
            return CheckHeads(link);
        }

        if (!hashes.TryGetValue(link.Record, out var hash))
        {
            if (link.Record.Kind == RecordKey.ReadingKind && _retiredInBatch.Contains(link.Record.Number))
            {
                _retired++;
                return null;
            }

            return Break(ChainFault.RecordMissing);
        }

        return hash.Span.SequenceEqual(link.RecordHash.Span) ? null : Break(ChainFault.RecordChanged);
    }

    private ChainBreak? CheckHeads(Link link)
    {
        if (!link.RecordHash.Span.SequenceEqual(RecordHash.OfHeads(link.Covers.Span)))
        {
            return new ChainBreak(ChainFault.RecordChanged, link.Chain, link.Position, link.Record);
        }

        foreach (var head in CoveredHeads.Read(link.Covers.Span))
        {
            if (!Holds(head))
            {
                return new ChainBreak(ChainFault.CoveredHeadMissing, head.Chain, head.Position, Record: null);
            }
        }

        return null;
    }

    // Every record has one link, so that equal numbers leave none outside.
    private ChainBreak? RecordOutside()
    {
        foreach (var source in _sources)
        {
            // A row slipped in under the number of another one has a link as far as numbers tell: then none can be named.
            if (source.Count() != _matched.GetValueOrDefault(source))
            {
                return new ChainBreak(ChainFault.RecordWithoutLink, 0, 0, source.FirstWithoutLink());
            }
        }

        if (_retirements.FirstOfAnotherCount() is { } retirement)
        {
            return new ChainBreak(ChainFault.RecordChanged, 0, 0, retirement);
        }

        return _readings.FirstIdentifierWithoutReading() is { } identifier
            ? new ChainBreak(ChainFault.PartWithoutRecord, 0, 0, identifier)
            : _readings.AreAllPartsFound() ? null : new ChainBreak(ChainFault.PartWithoutRecord, 0, 0, Record: null);
    }

    private Dictionary<RecordKey, ReadOnlyMemory<byte>> Hashes(List<Link> links)
    {
        Dictionary<RecordKey, ReadOnlyMemory<byte>> hashes = [];
        foreach (var source in _sources)
        {
            List<RecordKey> own = [.. links.Select(link => link.Record).Where(record => source.Keeps(record.Kind))];
            if (own.Count == 0)
            {
                continue;
            }

            var found = source.Hashes(own);
            _matched[source] = _matched.GetValueOrDefault(source) + found.Count;
            foreach (var (record, hash) in found)
            {
                hashes.Add(record, hash);
            }
        }

        _retiredInBatch = _retirements.RetiredOf([.. links.Select(link => link.Record)
            .Where(record => record.Kind == RecordKey.ReadingKind && !hashes.ContainsKey(record)).Select(record => record.Number)]);
        return hashes;
    }

    private List<Link> Links(long chain, long after)
    {
        using var command = Commands.Make(
            _connection, LinkRows.SelectLink + " WHERE chain = @chain AND position > @after ORDER BY position LIMIT @limit");
        command.Transaction = _transaction;
        command.Add("@chain", chain);
        command.Add("@after", after == 0 ? long.MinValue : after);
        command.Add("@limit", (long)LargestBatch);
        using var rows = command.ExecuteReader();
        List<Link> links = [];
        while (rows.Read())
        {
            links.Add(LinkRows.Read(rows));
        }

        return links;
    }

    private bool Holds(ChainHead head)
    {
        using var command = Commands.Make(_connection, "SELECT hash FROM link WHERE chain = @chain AND position = @position");
        command.Transaction = _transaction;
        command.Add("@chain", head.Chain);
        command.Add("@position", head.Position);
        return command.ExecuteScalar() is byte[] hash && Convert.ToHexStringLower(hash) == head.Sha256;
    }
}

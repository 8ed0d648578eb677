namespace ClearView.Records.Audit;

/// <summary>Makes the links that follow the last one of a chain.</summary>
internal sealed class ChainPen
{
    // A tail that is cut off shows in another chain once that one has covered it.
    private const int LinksBetweenHeads = 1000;

    // Servers that start together find no other chain yet, and look again soon.
    private const int LinksBeforeNextLook = 100;

    private long _position;
    private ReadOnlyMemory<byte> _hash;
    private long _linksSinceHeads;

    /// <param name="chain">Number of the chain.</param>
    /// <param name="last">Its last link; <see langword="null"/> where it has none.</param>
    /// <param name="linksSinceHeads">Links since the heads of other chains were covered; <see langword="null"/> covers them next.</param>
    public ChainPen(long chain, ChainHead? last, long? linksSinceHeads)
    {
        Chain = chain;
        _position = last?.Position ?? 0;
        _hash = last is { } head ? Convert.FromHexString(head.Sha256) : LinkHash.BeforeFirst;
        _linksSinceHeads = linksSinceHeads ?? LinksBetweenHeads;
    }

    private ChainPen(ChainPen other)
    {
        Chain = other.Chain;
        _position = other._position;
        _hash = other._hash;
        _linksSinceHeads = other._linksSinceHeads;
    }

    /// <summary>Number of the chain.</summary>
    public long Chain { get; }

    /// <summary>Links since the heads of other chains were covered.</summary>
    public long LinksSinceHeads => _linksSinceHeads;

    /// <summary>Whether the heads of other chains should be covered next.</summary>
    public bool AreHeadsDue => _linksSinceHeads >= LinksBetweenHeads;

    /// <summary>A pen at the same place, which may be dropped when its transaction is rolled back.</summary>
    public ChainPen Clone() => new(this);

    /// <summary>The link of a record.</summary>
    public Link Next(RecordKey record, ReadOnlyMemory<byte> recordHash)
    {
        _linksSinceHeads++;
        return Next(record, recordHash, ReadOnlyMemory<byte>.Empty);
    }

    /// <summary>The link that covers the heads of other chains; <see langword="null"/> where there are none.</summary>
    public Link? NextHeads(IEnumerable<ChainHead> heads)
    {
        var covers = CoveredHeads.Write(heads.Where(head => head.Chain != Chain));
        _linksSinceHeads = covers.Length == 0 ? LinksBetweenHeads - LinksBeforeNextLook : 0;
        var name = Chain.ToString(System.Globalization.CultureInfo.InvariantCulture);
        return covers.Length == 0
            ? null
            : Next(new RecordKey(RecordKey.HeadsKind, name, _position + 1), RecordHash.OfHeads(covers), covers);
    }

    private Link Next(RecordKey record, ReadOnlyMemory<byte> recordHash, ReadOnlyMemory<byte> covers)
    {
        _position++;
        _hash = LinkHash.Of(_hash.Span, Chain, _position, record, recordHash.Span);
        return new Link(Chain, _position, record, recordHash, _hash, covers);
    }
}

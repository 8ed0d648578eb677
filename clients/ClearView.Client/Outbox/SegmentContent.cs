namespace ClearView.Client.Outbox;

/// <summary>What stands in the bytes of a segment.</summary>
/// <param name="Records">The sound records with their offsets, in the order of the file.</param>
/// <param name="Damaged">Stretches that hold no sound record.</param>
/// <param name="TornAt">Where a record begins that was cut off while it was written; the length of the file where none does.</param>
internal sealed record SegmentContent(IReadOnlyList<(int Offset, OutboxRecord Record)> Records, IReadOnlyList<(int Offset, int Length)> Damaged, int TornAt)
{
    /// <summary>Reads a segment. Every byte is in a record, in a damaged stretch, or behind <see cref="TornAt"/>.</summary>
    public static SegmentContent Read(ReadOnlyMemory<byte> bytes)
    {
        List<(int, OutboxRecord)> records = [];
        List<(int, int)> damaged = [];
        var at = 0;
        while (at < bytes.Length)
        {
            var rest = bytes[at..];
            if (OutboxRecord.Read(rest) is { } record)
            {
                records.Add((at, record));
                at += record.Length;
                continue;
            }
            var length = NextRecord(rest);
            if (length == rest.Length && IsTorn(rest.Span))
            {
                return new SegmentContent(records, damaged, at);
            }
            damaged.Add((at, length));
            at += length;
        }
        return new SegmentContent(records, damaged, bytes.Length);
    }

    // Distance to the next sound record, or to the end.
    private static int NextRecord(ReadOnlyMemory<byte> bytes)
    {
        for (var at = 1; at < bytes.Length; at++)
        {
            var step = bytes.Span[at..].IndexOf(OutboxRecord.Mark);
            if (step < 0)
            {
                break;
            }
            at += step;
            if (OutboxRecord.Read(bytes[at..]) is not null)
            {
                return at;
            }
        }
        return bytes.Length;
    }

    // Too short for a head that begins as one does, or a sound head with too little behind it, or blocks that the file system had
    // given to the file before their bytes arrived. Anything else was once whole and is kept.
    private static bool IsTorn(ReadOnlySpan<byte> bytes)
    {
        if (!bytes.ContainsAnyExcept((byte)0))
        {
            return true;
        }
        if (bytes.Length < OutboxRecord.HeadLength)
        {
            var begun = Math.Min(bytes.Length, OutboxRecord.Mark.Length);
            return bytes[..begun].SequenceEqual(OutboxRecord.Mark[..begun]);
        }
        return OutboxRecord.PayloadLength(bytes) is { } length && bytes.Length < OutboxRecord.HeadLength + length + OutboxRecord.TailLength;
    }
}

using System.Globalization;

using ClearView.V1;

using Google.Protobuf;

namespace ClearView.Client.Outbox;

/// <summary>What is left of an outbox on the disk, read and put in order when it is opened.</summary>
/// <param name="Segments">The segments, oldest first.</param>
/// <param name="Waiting">Readings that are not done with, in order.</param>
/// <param name="NextSequence">The first number that is free.</param>
/// <param name="LastIsSound">Whether records may be added to the last segment.</param>
internal sealed record OutboxRecovery(IReadOnlyList<OutboxSegment> Segments, IReadOnlyList<OutboxEntry> Waiting, long NextSequence, bool LastIsSound)
{
    /// <summary>Reads the folder, cuts a torn tail off the last segment, and sets damaged bytes aside.</summary>
    public static OutboxRecovery Run(OutboxLayout layout, Action<OutboxEvent> report)
    {
        List<OutboxSegment> segments = [];
        List<OutboxEntry> waiting = [];
        var next = OutboxLayout.Find(layout.Refused, "*").Concat(OutboxLayout.Find(layout.Quarantine, "*"))
            .Select(path => OutboxLayout.NumberOf(path) + 1).Append(1).Max();
        var isSound = true;
        var paths = layout.FindSegments();
        foreach (var path in paths)
        {
            var bytes = File.ReadAllBytes(path);
            var content = SegmentContent.Read(bytes);
            var segment = new OutboxSegment(path, bytes.Length);
            var done = AcknowledgementFile.Read(OutboxLayout.Acknowledgements(path));
            segment.AcknowledgedLength = new FileInfo(OutboxLayout.Acknowledgements(path)) is { Exists: true } file ? file.Length : 0;
            next = Math.Max(next, OutboxLayout.NumberOf(path) + (bytes.Length > 0 ? 1 : 0));
            next = Math.Max(next, done.Select(entry => entry.Sequence + 1).DefaultIfEmpty(1).Max());
            isSound = content.Damaged.Count == 0;
            foreach (var (offset, length) in content.Damaged)
            {
                SetAside(layout, path, offset, bytes.AsSpan(offset, length), report);
            }
            foreach (var (offset, record) in content.Records)
            {
                next = Math.Max(next, record.Sequence + 1);
                if (done.Contains((record.Sequence, record.Check)))
                {
                    continue;
                }
                if (Parse(record.Payload) is { } request)
                {
                    segment.Waiting++;
                    waiting.Add(OutboxEntry.Of(record, request, segment, offset));
                }
                else
                {
                    SetAside(layout, path, offset, bytes.AsSpan(offset, record.Length), report);
                }
            }
            Cut(layout, segment, content.TornAt, bytes, isLast: path == paths[^1], report);
            segments.Add(segment);
        }
        RemoveOrphans(layout);
        return new OutboxRecovery(segments, [.. waiting.OrderBy(entry => entry.Sequence)], next, isSound);
    }

    /// <summary>The request in a payload; <see langword="null"/> where there is none.</summary>
    public static PostReadingRequest? Parse(ReadOnlyMemory<byte> payload)
    {
        try
        {
            return PostReadingRequest.Parser.ParseFrom(payload.Span);
        }
        catch (InvalidProtocolBufferException)
        {
            return null;
        }
    }

    /// <summary>Keeps damaged bytes in a file of their own, which is named after where they stood, and tells it once.</summary>
    public static void SetAside(OutboxLayout layout, string segment, long offset, ReadOnlySpan<byte> bytes, Action<OutboxEvent> report)
    {
        var name = string.Create(CultureInfo.InvariantCulture, $"{Path.GetFileNameWithoutExtension(segment)}-{offset}.bin");
        var path = Path.Combine(layout.Quarantine, name);
        if (File.Exists(path) && new FileInfo(path).Length == bytes.Length)
        {
            return;
        }
        DurableFiles.Write(path, bytes);
        report(new OutboxEvent(OutboxEventKind.Quarantined,
            string.Create(CultureInfo.InvariantCulture, $"{bytes.Length} bytes of {segment} from byte {offset} are damaged; a reading may be among them; they are kept in {path}")));
    }

    // Only the segment that was being written can end in the middle of a record; in any other, the end was lost later.
    private static void Cut(OutboxLayout layout, OutboxSegment segment, int tornAt, byte[] bytes, bool isLast, Action<OutboxEvent> report)
    {
        if (tornAt == bytes.Length)
        {
            return;
        }
        if (!isLast)
        {
            SetAside(layout, segment.Path, tornAt, bytes.AsSpan(tornAt), report);
            return;
        }
        segment.Cut(tornAt);
        report(new OutboxEvent(OutboxEventKind.TailCut,
            string.Create(CultureInfo.InvariantCulture, $"a record that was being written when this machine or the poster stopped was cut off ({bytes.Length - tornAt} bytes); it had not been accepted")));
    }

    private static void RemoveOrphans(OutboxLayout layout)
    {
        foreach (var path in OutboxLayout.Find(layout.Segments, "*.ack").Where(path => !File.Exists(Path.ChangeExtension(path, ".seg"))))
        {
            File.Delete(path);
        }
        foreach (var path in new[] { layout.Refused, layout.Quarantine }.SelectMany(folder => OutboxLayout.Find(folder, "*.tmp")))
        {
            File.Delete(path);
        }
    }
}

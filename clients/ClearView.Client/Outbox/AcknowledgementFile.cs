using System.Buffers.Binary;

namespace ClearView.Client.Outbox;

/// <summary>The records of one segment that are done with: 16 bytes each, sequence, check of the payload, CRC32 of these 12 bytes.</summary>
/// <remarks>A damaged entry is none: its reading is sent once more, which changes nothing on the server.</remarks>
internal static class AcknowledgementFile
{
    private const int EntryLength = 16;

    /// <summary>Reads the sound entries.</summary>
    public static HashSet<(long Sequence, uint Check)> Read(string path)
    {
        HashSet<(long, uint)> entries = [];
        if (!File.Exists(path))
        {
            return entries;
        }
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
        var bytes = new byte[file.Length];
        var count = file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false);
        for (var at = 0; at + EntryLength <= count; at += EntryLength)
        {
            var entry = bytes.AsSpan(at, EntryLength);
            if (BinaryPrimitives.ReadUInt32LittleEndian(entry[12..]) == Crc32.Of(entry[..12]))
            {
                entries.Add((BinaryPrimitives.ReadInt64LittleEndian(entry), BinaryPrimitives.ReadUInt32LittleEndian(entry[8..])));
            }
        }
        return entries;
    }

    /// <summary>Adds entries and flushes them to the disk.</summary>
    /// <returns>The growth of the file, bytes.</returns>
    public static long Append(string path, IReadOnlyCollection<(long Sequence, uint Check)> entries)
    {
        using var file = new FileStream(path, FileMode.OpenOrCreate, FileAccess.Write, FileShare.Read);
        var before = file.Length;
        // An entry that was cut off is overwritten.
        file.Position = before - (before % EntryLength);
        var bytes = new byte[EntryLength * entries.Count];
        var at = 0;
        foreach (var (sequence, check) in entries)
        {
            var entry = bytes.AsSpan(at, EntryLength);
            BinaryPrimitives.WriteInt64LittleEndian(entry, sequence);
            BinaryPrimitives.WriteUInt32LittleEndian(entry[8..], check);
            BinaryPrimitives.WriteUInt32LittleEndian(entry[12..], Crc32.Of(entry[..12]));
            at += EntryLength;
        }
        file.Write(bytes);
        file.Flush(flushToDisk: true);
        // New, or left empty by a disk that took nothing.
        if (before == 0)
        {
            DurableFiles.FlushFolder(Path.GetDirectoryName(path)!);
        }
        return file.Length - before;
    }
}

namespace ClearView.Client.Outbox;

/// <summary>A segment file and how much of it is done with.</summary>
/// <param name="path">The file.</param>
/// <param name="length">Its length, bytes.</param>
internal sealed class OutboxSegment(string path, long length)
{
    /// <summary>The file.</summary>
    public string Path { get; } = path;

    /// <summary>Its length, bytes.</summary>
    public long Length { get; private set; } = length;

    /// <summary>Length of its acknowledgements, bytes.</summary>
    public long AcknowledgedLength { get; set; }

    /// <summary>Records that are not done with.</summary>
    public int Waiting { get; set; }

    /// <summary>Begins a segment. An empty file of that name is one whose name could not be made durable before.</summary>
    public static OutboxSegment Create(string path)
    {
        using (var file = new FileStream(path, FileMode.OpenOrCreate, FileAccess.Write, FileShare.Read))
        {
            if (file.Length > 0)
            {
                throw new IOException($"the segment {path} is there already");
            }
        }
        DurableFiles.FlushFolder(System.IO.Path.GetDirectoryName(path)!);
        return new OutboxSegment(path, 0);
    }

    /// <summary>Adds bytes and flushes them to the disk. When this throws, nothing of them is left, or <see cref="IsBroken"/>.</summary>
    public void Append(ReadOnlySpan<byte> bytes)
    {
        using var file = new FileStream(Path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite, bufferSize: 0);
        try
        {
            file.Position = Length;
            file.Write(bytes);
            file.Flush(flushToDisk: true);
        }
        catch (IOException)
        {
            IsBroken = true;
            file.SetLength(Length);
            file.Flush(flushToDisk: true);
            IsBroken = false;
            throw;
        }
        Length += bytes.Length;
    }

    /// <summary>Whether nothing may be added behind what could not be written and not be taken back.</summary>
    public bool IsBroken { get; private set; }

    /// <summary>Lets nothing more be added.</summary>
    public void Close() => IsBroken = true;

    /// <summary>Cuts the file and flushes it.</summary>
    public void Cut(long newLength)
    {
        using var file = new FileStream(Path, FileMode.Open, FileAccess.Write, FileShare.ReadWrite);
        file.SetLength(newLength);
        file.Flush(flushToDisk: true);
        Length = newLength;
    }

    /// <summary>Reads some bytes.</summary>
    public byte[] Read(long offset, int count)
    {
        using var file = new FileStream(Path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite, bufferSize: 0);
        file.Position = offset;
        var bytes = new byte[count];
        var got = file.ReadAtLeast(bytes, count, throwOnEndOfStream: false);
        return bytes[..got];
    }

    /// <summary>Removes the file, then its acknowledgements: the other way round a crash would send everything again.</summary>
    /// <returns>The bytes that were freed.</returns>
    public long Remove()
    {
        File.Delete(Path);
        DurableFiles.FlushFolder(System.IO.Path.GetDirectoryName(Path)!);
        File.Delete(OutboxLayout.Acknowledgements(Path));
        return Length + AcknowledgedLength;
    }
}

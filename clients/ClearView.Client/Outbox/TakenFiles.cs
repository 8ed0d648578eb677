using System.Text;
using System.Text.Json;

namespace ClearView.Client.Outbox;

/// <summary>Remembers, in the folder of an outbox, which scan files it has taken. A file that has changed since is another one.</summary>
/// <remarks>
/// One line of JSON per file, flushed after the readings are: a crash in between takes the file again, under the same identifiers.
/// Files that are gone are forgotten when the memory is opened and most of it concerns such files.
/// </remarks>
public sealed class TakenFiles
{
    private const int FewLines = 1000;

    private readonly string _path;
    private readonly HashSet<Entry> _taken = [];

    /// <summary>Opens the memory of an outbox.</summary>
    /// <param name="outboxFolder">Folder of the outbox, which is held open.</param>
    /// <exception cref="OutboxException">The memory cannot be read.</exception>
    public TakenFiles(string outboxFolder)
    {
        _path = Path.Combine(Path.GetFullPath(outboxFolder), "taken.jsonl");
        if (!File.Exists(_path))
        {
            return;
        }
        try
        {
            Compact(Load());
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new OutboxException($"the list of files that were taken, {_path}, cannot be read: {e.Message}", inner: e);
        }
    }

    /// <summary>Whether a file was taken as it is now.</summary>
    public bool Contains(FileInfo file) => _taken.Contains(Entry.Of(file));

    /// <summary>Remembers a file as it was seen, durably.</summary>
    public void Add(FileInfo file)
    {
        var entry = Entry.Of(file);
        bool isNew;
        using (var stream = new FileStream(_path, FileMode.Append, FileAccess.Write, FileShare.Read))
        {
            isNew = stream.Length == 0;
            // The line before it may have been cut off.
            stream.Write(Encoding.UTF8.GetBytes((isNew ? "" : "\n") + JsonSerializer.Serialize(entry)));
            stream.Flush(flushToDisk: true);
        }
        if (isNew)
        {
            DurableFiles.FlushFolder(Path.GetDirectoryName(_path)!);
        }
        _taken.Add(entry);
    }

    private int Load()
    {
        var lines = 0;
        foreach (var line in File.ReadLines(_path))
        {
            lines++;
            try
            {
                if (JsonSerializer.Deserialize<Entry>(line) is { } entry)
                {
                    _taken.Add(entry);
                }
            }
            catch (JsonException)
            {
                // A line that was cut off: its file is taken again, which changes nothing.
            }
        }
        return lines;
    }

    // A folder that cannot be reached just now says nothing about its files.
    private void Compact(int lines)
    {
        if (lines <= FewLines)
        {
            return;
        }
        var kept = _taken.Where(entry => entry.IsThere() || !Directory.Exists(System.IO.Path.GetDirectoryName(entry.Path))).ToList();
        if (kept.Count > lines / 2)
        {
            return;
        }
        try
        {
            DurableFiles.Write(_path, Encoding.UTF8.GetBytes(string.Join('\n', kept.Select(entry => JsonSerializer.Serialize(entry)))));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // A full disk: the longer list stands.
            return;
        }
        _taken.IntersectWith(kept);
    }

    private sealed record Entry(string Path, long Length, long WrittenTicks)
    {
        public static Entry Of(FileInfo file) => new(file.FullName, file.Length, file.LastWriteTimeUtc.Ticks);

        public bool IsThere() => new FileInfo(Path) is { Exists: true } file && this == Of(file);
    }
}

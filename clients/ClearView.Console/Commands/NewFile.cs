namespace ClearView.Console.Commands;

/// <summary>A file that gets its name only when it is whole, and takes nobody else's: until then it is a temporary one in the same folder.</summary>
internal sealed class NewFile : IDisposable
{
    private readonly string _path;
    private readonly string _part;
    private readonly FileStream _stream;

    /// <summary>Makes the temporary file.</summary>
    /// <param name="path">The name that it gets in the end.</param>
    /// <exception cref="UsageException">There is such a file.</exception>
    /// <exception cref="IOException">No file can be made in the folder.</exception>
    public NewFile(string path)
    {
        RequireNone(path);
        _path = path;
        var whole = Path.GetFullPath(path);
        _part = Path.Combine(Path.GetDirectoryName(whole)!, $".{Path.GetFileName(whole)}.{Guid.NewGuid():N}.part");
        _stream = new FileStream(_part, FileMode.CreateNew, FileAccess.Write, FileShare.None);
    }

    /// <summary>Takes what the file is to hold.</summary>
    public Stream Stream => _stream;

    /// <summary>Makes sure that a name is free.</summary>
    /// <exception cref="UsageException">It is not.</exception>
    public static void RequireNone(string path)
    {
        if (Path.Exists(path))
        {
            throw new UsageException($"{path} exists; name a new file");
        }
    }

    /// <summary>Flushes the file and gives it its name.</summary>
    /// <exception cref="IOException">There is such a file meanwhile, or the disk is full.</exception>
    public void Complete()
    {
        _stream.Flush(flushToDisk: true);
        _stream.Dispose();
        File.Move(_part, _path, overwrite: false);
    }

    /// <summary>Removes the temporary file where it never got its name.</summary>
    public void Dispose()
    {
        _stream.Dispose();
        File.Delete(_part);
    }
}

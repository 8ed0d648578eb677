using ClearView.Client.Outbox;

namespace ClearView.Console.Options;

/// <summary>A new file for a secret, readable by its owner alone. It goes again where no secret comes.</summary>
internal sealed class SecretFile : IDisposable
{
    private readonly FileStream _stream;

    /// <summary>Makes the file.</summary>
    /// <exception cref="IOException">It exists, or cannot be made.</exception>
    public SecretFile(string path)
    {
        Path = path;
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }
        _stream = new FileStream(path, options);
    }

    /// <summary>Its name.</summary>
    public string Path { get; }

    /// <summary>Whether the secret is in it.</summary>
    public bool IsWritten { get; private set; }

    /// <summary>Writes the secret as its only line; it is durable afterwards, and so is the name of the file.</summary>
    /// <exception cref="IOException">It cannot be written.</exception>
    public void Write(string secret)
    {
        _stream.Write(System.Text.Encoding.ASCII.GetBytes(secret + "\n"));
        _stream.Flush(flushToDisk: true);
        DurableFiles.FlushFolder(System.IO.Path.GetDirectoryName(System.IO.Path.GetFullPath(Path))!);
        IsWritten = true;
    }

    public void Dispose()
    {
        _stream.Dispose();
        if (!IsWritten)
        {
            File.Delete(Path);
        }
    }
}

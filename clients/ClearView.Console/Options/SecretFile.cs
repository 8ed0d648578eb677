namespace ClearView.Console.Options;

/// <summary>A new file for a secret, readable by its owner alone. It goes again where no secret comes.</summary>
internal sealed class SecretFile : IDisposable
{
    private readonly FileStream _stream;
    private bool _isWritten;

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

    /// <summary>Writes the secret as its only line.</summary>
    public void Write(string secret)
    {
        _stream.Write(System.Text.Encoding.ASCII.GetBytes(secret + "\n"));
        _stream.Flush(flushToDisk: true);
        _isWritten = true;
    }

    public void Dispose()
    {
        _stream.Dispose();
        if (!_isWritten)
        {
            File.Delete(Path);
        }
    }
}

namespace ClearView.Console.Commands;

/// <summary>A file that keeps how far a watch has come.</summary>
/// <param name="path">The file.</param>
internal sealed class WatchPlace(string path)
{
    private string _written = "";

    /// <summary>The position in the file; empty where there is no file yet.</summary>
    /// <exception cref="UsageException">The file cannot be read.</exception>
    public string Read()
    {
        try
        {
            return _written = File.Exists(path) ? File.ReadAllText(path).Trim() : "";
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new UsageException($"{path}: {e.Message}");
        }
    }

    /// <summary>Keeps a position; the file holds the one before or this one, whatever happens.</summary>
    /// <exception cref="UsageException">The file cannot be written.</exception>
    public void Write(string position)
    {
        if (position == _written)
        {
            return;
        }
        try
        {
            var fresh = path + ".new";
            File.WriteAllText(fresh, position + "\n");
            File.Move(fresh, path, overwrite: true);
            _written = position;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new UsageException($"{path}: {e.Message}");
        }
    }
}

using System.Text;

using ClearView.Client.Outbox;

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
            if (!File.Exists(path))
            {
                return "";
            }
            _written = File.ReadAllText(path).Trim();
            return _written.Length > 0
                ? _written
                : throw new UsageException($"{path} is empty; remove it to begin with what comes now, or use --from-beginning with another file");
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
            DurableFiles.Write(Path.GetFullPath(path), Encoding.UTF8.GetBytes(position + "\n"));
            _written = position;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new UsageException($"{path}: {e.Message}");
        }
    }
}

using ClearView.Records.Audit;

namespace ClearView.Console.Commands.Audit;

/// <summary>A file of heads: one "CHAIN:POSITION:HASH" in a line; lines that begin with "#" are remarks.</summary>
internal static class HeadsFile
{
    /// <summary>Reads one.</summary>
    /// <exception cref="UsageException">It cannot be read, or a line is no head.</exception>
    public static IReadOnlyList<ChainHead> Read(string path)
    {
        try
        {
            return [.. File.ReadLines(path).Select(line => line.Trim()).Where(line => line.Length > 0 && line[0] != '#').Select(line => Parse(line, path))];
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new UsageException($"{path} cannot be read: {error.Message}");
        }
    }

    /// <summary>Reads one head.</summary>
    /// <exception cref="UsageException">It is none.</exception>
    public static ChainHead Parse(string text, string? path = null) => ChainHead.TryParse(text, out var head)
        ? head
        : throw new UsageException($"{(path is null ? "" : path + ": ")}\"{text}\" is no head; write CHAIN:POSITION:HASH, as \"clearview audit heads\" shows it");

    /// <summary>Writes one, with a remark.</summary>
    /// <exception cref="UsageException">It cannot be written.</exception>
    public static void Write(string path, string remark, IEnumerable<string> heads)
    {
        try
        {
            File.WriteAllText(path, string.Concat(heads.Prepend("# " + remark).Select(line => line + "\n")));
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new UsageException($"{path} cannot be written: {error.Message}");
        }
    }
}

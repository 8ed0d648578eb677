using System.Globalization;

namespace ClearView.Client.Outbox;

/// <summary>Where things lie in the folder of an outbox.</summary>
/// <param name="Folder">The folder.</param>
internal sealed record OutboxLayout(string Folder)
{
    public string Lock => Path.Combine(Folder, "outbox.lock");

    public string Limits => Path.Combine(Folder, "limits.json");

    public string Segments => Path.Combine(Folder, "segments");

    public string Refused => Path.Combine(Folder, "refused");

    public string Quarantine => Path.Combine(Folder, "quarantine");

    public string Segment(long firstSequence) => Path.Combine(Segments, Number(firstSequence) + ".seg");

    public string RefusedReading(long sequence) => Path.Combine(Refused, Number(sequence) + ".json");

    /// <summary>File of the acknowledgements of a segment.</summary>
    public static string Acknowledgements(string segment) => Path.ChangeExtension(segment, ".ack");

    /// <summary>The segments, oldest first.</summary>
    public IReadOnlyList<string> FindSegments() => Find(Segments, "*.seg");

    /// <summary>Files of a folder by name; none where the folder is missing.</summary>
    public static IReadOnlyList<string> Find(string folder, string pattern) =>
        Directory.Exists(folder) ? [.. Directory.EnumerateFiles(folder, pattern).Order(StringComparer.Ordinal)] : [];

    /// <summary>The number that a file is named after; 0 where it is named after none.</summary>
    public static long NumberOf(string path) =>
        long.TryParse(Path.GetFileName(path).Split('.', '-')[0], NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : 0;

    /// <summary>Bytes of all that lies in the folder.</summary>
    public long Measure() => Directory.Exists(Folder)
        ? new DirectoryInfo(Folder).EnumerateFiles("*", SearchOption.AllDirectories).Sum(Length)
        : 0;

    // A poster may remove a file while its outbox is looked at.
    private static long Length(FileInfo file)
    {
        try
        {
            return file.Length;
        }
        catch (FileNotFoundException)
        {
            return 0;
        }
    }

    private static string Number(long sequence) => sequence.ToString("D12", CultureInfo.InvariantCulture);
}

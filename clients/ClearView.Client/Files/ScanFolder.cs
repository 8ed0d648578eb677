namespace ClearView.Client.Files;

/// <summary>Finds the scan files under a path.</summary>
public static class ScanFolder
{
    private static readonly string[] Extensions = [".csv", ".tsv", ".txt"];

    /// <summary>The scan files under a path: the file itself, or every .csv, .tsv and .txt file in the folder and below.</summary>
    /// <param name="path">A file or a folder.</param>
    /// <returns>Paths in ordinal order; a file that is named outright is taken whatever its extension.</returns>
    /// <exception cref="ScanFileException">There is no such file or folder, or the folder holds no scan file.</exception>
    public static IReadOnlyList<string> Find(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        if (File.Exists(path))
        {
            return [path];
        }
        if (!Directory.Exists(path))
        {
            throw new ScanFileException(path, null, null, "no such file or folder", "a scan file, or a folder with scan files");
        }
        var files = FindNow(path);
        return files.Count > 0
            ? files
            : throw new ScanFileException(path, null, null, "the folder holds no scan file", "files ending in .csv, .tsv or .txt");
    }

    /// <summary>The scan files that a folder and those below hold at present, perhaps none.</summary>
    /// <param name="folder">A folder.</param>
    /// <returns>Paths in ordinal order.</returns>
    /// <exception cref="ScanFileException">The folder cannot be read.</exception>
    internal static IReadOnlyList<string> FindNow(string folder)
    {
        try
        {
            return
            [
                .. Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories)
                    .Where(file => Extensions.Contains(Path.GetExtension(file), StringComparer.OrdinalIgnoreCase))
                    .Order(StringComparer.Ordinal),
            ];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new ScanFileException(folder, null, null, e.Message.TrimEnd('.'), "a folder that may be read", e);
        }
    }
}

namespace ClearView.Repository.Tests.Support;

/// <summary>The repository that these tests were built from: its root and the files that git knows of.</summary>
internal static class Tree
{
    private static readonly Lazy<IReadOnlyList<string>> KnownFiles = new(ListFiles);

    /// <summary>The folder that holds the solution.</summary>
    public static string Root { get; } = FindRoot();

    /// <summary>Every file that git tracks or would track, relative to the root, with forward slashes, sorted.</summary>
    public static IReadOnlyList<string> Files => KnownFiles.Value;

    /// <summary>Those of the files that end in one of the extensions.</summary>
    public static IEnumerable<string> FilesEndingIn(params string[] extensions) =>
        Files.Where(file => extensions.Any(extension => file.EndsWith(extension, StringComparison.Ordinal)));

    /// <summary>Whether git knows a file of this name, or a folder with files in it. Case counts.</summary>
    public static bool Holds(string path)
    {
        string wanted = path.TrimEnd('/');
        return wanted.Length == 0
            || Files.Contains(wanted, StringComparer.Ordinal)
            || Files.Any(file => file.StartsWith(wanted + "/", StringComparison.Ordinal));
    }

    /// <summary>The full path of a file named relative to the root.</summary>
    public static string FullPath(string file) => Path.Combine(Root, file);

    /// <summary>The text of a file named relative to the root.</summary>
    public static string Read(string file) => File.ReadAllText(FullPath(file));

    /// <summary>The lines of a file named relative to the root.</summary>
    public static string[] ReadLines(string file) => File.ReadAllLines(FullPath(file));

    private static string FindRoot()
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "ClearView.sln")))
        {
            folder = folder.Parent;
        }

        return folder?.FullName ?? throw new InvalidOperationException("No folder above the tests holds ClearView.sln.");
    }

    private static string[] ListFiles()
    {
        // The owner of a clone may be another user than the one who runs the tests (root in a container).
        ProcessResult result = ProcessResult.Run(
            Root,
            "git",
            ["-c", "safe.directory=*", "-c", "core.quotePath=false", "ls-files", "--cached", "--others", "--exclude-standard", "-z"]);
        if (result.ExitCode != 0)
        {
            throw new InvalidOperationException($"git ls-files failed: {result.Error}");
        }

        return [.. result.Output
            .Split('\0', StringSplitOptions.RemoveEmptyEntries)
            .Where(file => File.Exists(Path.Combine(Root, file)))
            .Distinct(StringComparer.Ordinal)
            .Order(StringComparer.Ordinal)];
    }
}

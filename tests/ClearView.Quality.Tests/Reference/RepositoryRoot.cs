namespace ClearView.Quality.Tests.Reference;

/// <summary>The folder that holds the solution, found from where the tests were built.</summary>
internal static class RepositoryRoot
{
    /// <summary>Full path of a file named relative to the root.</summary>
    public static string PathOf(string file)
    {
        DirectoryInfo? folder = new(AppContext.BaseDirectory);
        while (folder is not null && !File.Exists(Path.Combine(folder.FullName, "ClearView.sln")))
        {
            folder = folder.Parent;
        }

        return folder is null
            ? throw new InvalidOperationException("No folder above the tests holds ClearView.sln.")
            : Path.Combine(folder.FullName, file);
    }
}

namespace ClearView.Console.Commands.Outboxes;

/// <summary>Tells whether folders lie within each other, whatever links lead there.</summary>
internal static class NestedFolders
{
    private static readonly StringComparison Comparison =
        OperatingSystem.IsWindows() || OperatingSystem.IsMacOS() ? StringComparison.OrdinalIgnoreCase : StringComparison.Ordinal;

    /// <summary>Whether a folder, which need not be there yet, is another one or lies below it.</summary>
    public static bool IsAtOrBelow(string folder, string outer)
    {
        var (inside, around) = (Resolve(folder), Resolve(outer));
        return string.Equals(inside, around, Comparison)
            || inside.StartsWith(Path.EndsInDirectorySeparator(around) ? around : around + Path.DirectorySeparatorChar, Comparison);
    }

    private static string Resolve(string folder)
    {
        var full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        var at = Path.GetPathRoot(full)!;
        foreach (var name in full[at.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries))
        {
            at = Path.Combine(at, name);
            if (Directory.Exists(at) && Directory.ResolveLinkTarget(at, returnFinalTarget: true) is { } target)
            {
                at = Path.TrimEndingDirectorySeparator(target.FullName);
            }
        }
        return at;
    }
}

namespace ClearView.Plotting.Decisions;

/// <summary>Names that are too long for their place, cut in the middle and still different from one another.</summary>
internal static class ShortNames
{
    private const char Cut = '…';

    /// <summary>Shortens a name to so many characters.</summary>
    public static string Of(string name, int most)
    {
        if (name.Length <= most)
        {
            return name;
        }

        int end = (most - 1) / 2;
        return string.Concat(name.AsSpan(0, most - 1 - end).TrimEnd(), Cut.ToString(), name.AsSpan(name.Length - end).TrimStart());
    }

    /// <summary>Shortens each name; those that would become the same carry their place in the list.</summary>
    public static string[] Of(IReadOnlyList<string> names, int most)
    {
        string[] cut = [.. names.Select(name => Of(name, most))];
        return [.. cut.Select((name, i) => cut.Count(other => other == name) > 1 ? $"{name} ({i + 1})" : name)];
    }
}

namespace ClearView.Plotting.Decisions;

/// <summary>Names that are too long for their place, cut in the middle and still different from one another.</summary>
internal static class ShortNames
{
    private const string Cut = "…";

    /// <summary>Shortens a name to so many characters.</summary>
    public static string Of(string name, int most)
    {
        if (name.Length <= most)
        {
            return name;
        }

        int end = (most - 1) / 2;
        return string.Concat(name.AsSpan(0, most - 1 - end).TrimEnd(), Cut, name.AsSpan(name.Length - end).TrimStart());
    }

    /// <summary>Shortens each name: where one is too long, all lose what they share at both ends; those that become the same carry their place in the list.</summary>
    public static string[] Of(IReadOnlyList<string> names, int most)
    {
        string[] cut = [.. names];
        if (names.Count > 1 && names.Any(name => name.Length > most))
        {
            int least = names.Min(name => name.Length) - 1;
            int head = Shared(names, least, (name, i) => name[i]);
            int tail = Shared(names, least - head, (name, i) => name[^(i + 1)]);
            (head, tail) = (head > 1 ? head : 0, tail > 1 ? tail : 0);
            cut = [.. names.Select(name => $"{(head > 0 ? Cut : "")}{name[head..^tail].Trim()}{(tail > 0 ? Cut : "")}")];
        }

        cut = [.. cut.Select(name => Of(name, most))];
        return [.. cut.Select((name, i) => cut.Count(other => other == name) > 1 ? $"{name} ({i + 1})" : name)];
    }

    private static int Shared(IReadOnlyList<string> names, int most, Func<string, int, char> at)
    {
        int shared = 0;
        while (shared < most && names.All(name => at(name, shared) == at(names[0], shared)))
        {
            shared++;
        }

        return shared;
    }
}

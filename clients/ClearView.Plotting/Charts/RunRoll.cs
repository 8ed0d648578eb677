using System.Collections.Immutable;

namespace ClearView.Plotting.Charts;

/// <summary>Readings of one roll that follow one another.</summary>
/// <param name="Name">The roll; empty where none is named.</param>
/// <param name="ShortName">Its name, without what all rolls share where space is short; empty where there is no space at all.</param>
/// <param name="Points">Its readings, at least one.</param>
internal sealed record RunRoll(string Name, string ShortName, ImmutableArray<RunPoint> Points)
{
    // About what the width of a chart holds; a name that does not fit loses what all share.
    private const double NamesWidthCharacters = 88;
    private const int GapCharacters = 2;

    public double Mean => Points.Average(point => point.Number);

    /// <summary>Splits a run wherever the roll changes.</summary>
    public static RunRoll[] Split(RunPoint[] run)
    {
        var rolls = new List<List<RunPoint>>();
        foreach (RunPoint point in run)
        {
            if (rolls.Count == 0 || rolls[^1][0].Reading.Roll != point.Reading.Roll)
            {
                rolls.Add([]);
            }

            rolls[^1].Add(point);
        }

        string[] names = [.. rolls.Select(roll => roll[0].Reading.Roll)];
        int shared = SharedLength(names);
        int longest = names.Max(name => name.Length) - shared;
        int every = (int)Math.Ceiling(names.Length * (longest + GapCharacters) / NamesWidthCharacters);
        return [.. rolls.Select((roll, i) => new RunRoll(names[i], i % every > 0 ? "" : names[i].Length > 0 ? names[i][shared..] : "none", [.. roll]))];
    }

    /// <summary>What stands beside the short names, for example "Roll R24-…".</summary>
    public static string SharedLabel(RunRoll[] rolls)
    {
        if (rolls.All(roll => roll.Name.Length == 0))
        {
            return "";
        }

        int shared = SharedLength([.. rolls.Select(roll => roll.Name)]);
        return shared == 0 ? "Roll" : $"Roll {rolls[0].Name[..shared]}…";
    }

    /// <summary>Length of the beginning that all names share, never cutting into digits and never taking a whole name.</summary>
    private static int SharedLength(string[] names)
    {
        if (names.Length * (names.Max(name => name.Length) + GapCharacters) <= NamesWidthCharacters)
        {
            return 0;
        }

        int shared = names.Min(name => name.Length);
        for (int i = 0; i < shared; i++)
        {
            if (names.Any(name => name[i] != names[0][i]))
            {
                shared = i;
            }
        }

        while (shared > 0 && (names.Any(name => name.Length == shared) || char.IsAsciiDigit(names[0][shared - 1])))
        {
            shared--;
        }

        return shared;
    }
}

using System.Globalization;
using System.Text.RegularExpressions;

using ClearView.Optics.Tests.Reference;

namespace ClearView.Optics.Tests.Documentation;

/// <summary>A worked example of docs/methods: its figures, read from the page itself, so that page and code cannot drift apart.</summary>
internal sealed partial class WorkedExample
{
    private readonly Dictionary<string, string> _figures;
    private readonly HashSet<string> _unused;

    private WorkedExample(Dictionary<string, string> figures)
    {
        _figures = figures;
        _unused = [.. figures.Keys];
    }

    /// <summary>Reads an example.</summary>
    /// <param name="page">Page of docs/methods, for example "haze.md".</param>
    /// <param name="name">The word after the fence word that opens the block.</param>
    /// <param name="fence">The fence word, which says whose tests read the block.</param>
    public static WorkedExample Read(string page, string name, string fence = "example")
    {
        string[] lines = File.ReadAllLines(RepositoryRoot.PathOf($"docs/methods/{page}"));
        IEnumerable<Match> figures = lines
            .SkipWhile(line => line != $"```{fence} {name}")
            .Skip(1)
            .TakeWhile(line => line != "```")
            .Select(line => Figure().Match(line));
        Dictionary<string, string> read = figures.ToDictionary(match => match.Groups["name"].Value, match => match.Groups["value"].Value);
        Assert.True(read.Count > 0, $"{page} has no {fence} {name}.");
        Assert.DoesNotContain(string.Empty, read.Keys);
        return new WorkedExample(read);
    }

    /// <summary>A figure that the example starts from.</summary>
    public double Given(string name)
    {
        _unused.Remove(name);
        return double.Parse(_figures[name], CultureInfo.InvariantCulture);
    }

    /// <summary>Checks a figure that the example arrives at: to half a unit of its last printed place.</summary>
    public void Shows(string name, double computed)
    {
        string printed = _figures[name];
        int decimals = printed.Contains('.', StringComparison.Ordinal) ? printed.Length - printed.IndexOf('.', StringComparison.Ordinal) - 1 : 0;
        Assert.True(
            Math.Abs(Given(name) - computed) <= (0.5 * Math.Pow(10, -decimals)) + 1e-12,
            string.Create(CultureInfo.InvariantCulture, $"{name}: the page prints {printed}, computed is {computed}."));
    }

    /// <summary>Checks that no figure of the example went unread.</summary>
    public void HasNoOtherFigures() => Assert.Empty(_unused);

    [GeneratedRegex(@"^(?<name>\w+) = (?<value>-?\d+(?:\.\d+)?)(?: (?:%|nm|µm|mm|K|h|°C|°))?$")]
    private static partial Regex Figure();
}

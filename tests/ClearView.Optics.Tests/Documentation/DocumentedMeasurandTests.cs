using System.Text.RegularExpressions;

using ClearView.Optics.Evaluations;
using ClearView.Optics.Tests.Reference;

namespace ClearView.Optics.Tests.Documentation;

/// <summary>Every measurand has its section in docs/methods, and every worked example its test.</summary>
public sealed partial class DocumentedMeasurandTests
{
    // A row of the overview: | `identifier` | unit | [section](page#heading) | standard | needs |
    private static readonly Match[] Rows = [.. Row().Matches(File.ReadAllText(RepositoryRoot.PathOf("docs/methods/README.md"))).AsEnumerable()];

    public static TheoryData<string> Identifiers => [.. Measurand.All.Select(measurand => measurand.Id)];

    // A measurand that is added without a page fails here.
    [Theory]
    [MemberData(nameof(Identifiers))]
    public void Measurand_IsInTheOverviewAndNamedInItsSection(string id)
    {
        Assert.True(Measurand.TryFind(id, out Measurand? measurand));
        Match row = Assert.Single(Rows, row => row.Groups["id"].Value == id);

        Assert.Equal(measurand.Unit.Length == 0 ? "–" : measurand.Unit, row.Groups["unit"].Value);
        Assert.Contains($"`{id}`", Section(row.Groups["page"].Value, row.Groups["anchor"].Value), StringComparison.Ordinal);
    }

    [Fact]
    public void Overview_NamesNothingElse() =>
        Assert.Equal(Measurand.All.Select(measurand => measurand.Id).Order(StringComparer.Ordinal), Rows.Select(row => row.Groups["id"].Value).Order(StringComparer.Ordinal));

    // Every page but the overview says what its numbers can bear.
    [Fact]
    public void Page_OfAMeasurand_HasLimitsUncertaintyAndAnExample()
    {
        foreach (string page in Rows.Select(row => row.Groups["page"].Value).Distinct())
        {
            string text = File.ReadAllText(RepositoryRoot.PathOf($"docs/methods/{page}"));
            Assert.Contains("\n## Limits\n", text, StringComparison.Ordinal);
            Assert.Contains("\n## Uncertainty\n", text, StringComparison.Ordinal);
            Assert.Contains("\n## Worked example", text, StringComparison.Ordinal);
        }
    }

    // A new example must find its test: one that reads it by name.
    [Fact]
    public void Pages_HoldOnlyExamplesThatAreTested()
    {
        string[] printed =
        [
            .. Directory.EnumerateFiles(RepositoryRoot.PathOf("docs/methods"), "*.md")
                .SelectMany(file => File.ReadLines(file)
                    .Where(line => line.StartsWith("```example ", StringComparison.Ordinal))
                    .Select(line => $"{Path.GetFileName(file)} {line["```example ".Length..]}"))
                .Order(StringComparer.Ordinal),
        ];
        IEnumerable<string> read = Directory.EnumerateFiles(RepositoryRoot.PathOf("tests/ClearView.Optics.Tests/Documentation"), "*.cs")
            .SelectMany(file => Reading().Matches(File.ReadAllText(file)))
            .Select(match => $"{match.Groups["page"].Value} {match.Groups["name"].Value}")
            .Distinct()
            .Order(StringComparer.Ordinal);

        Assert.NotEmpty(printed);
        Assert.Equal(printed, read);
    }

    // The text from a heading to the next of the same or a higher level.
    private static string Section(string page, string anchor)
    {
        string[] lines = File.ReadAllLines(RepositoryRoot.PathOf($"docs/methods/{page}"));
        int start = Array.FindIndex(lines, line => Heading().Match(line) is { Success: true } heading && AnchorOf(heading) == anchor);
        Assert.True(start >= 0, $"{page} has no heading #{anchor}.");
        int level = Heading().Match(lines[start]).Groups["level"].Length;

        // A page's title heads what stands before its first section.
        return string.Join('\n', lines.Skip(start + 1).TakeWhile(line =>
            Heading().Match(line) is not { Success: true } next || (level > 1 && next.Groups["level"].Length > level)));
    }

    private static string AnchorOf(Match heading) =>
        NotInAnchor().Replace(heading.Groups["text"].Value, "").ToLowerInvariant().Replace(' ', '-');

    [GeneratedRegex(@"^\| `(?<id>\w+)` \| (?<unit>[^|]+) \| \[[^\]]+\]\((?<page>[\w-]+\.md)#(?<anchor>[^)]+)\) \| [^|]+ \| [^|]+ \|$", RegexOptions.Multiline)]
    private static partial Regex Row();

    [GeneratedRegex(@"^(?<level>#+) (?<text>.+)$")]
    private static partial Regex Heading();

    [GeneratedRegex(@"[^\w -]")]
    private static partial Regex NotInAnchor();

    [GeneratedRegex(@"WorkedExample\.Read\(""(?<page>[\w-]+\.md)"", ""(?<name>[\w-]+)""\)")]
    private static partial Regex Reading();
}

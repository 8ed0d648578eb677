using ClearView.Repository.Tests.Support;

namespace ClearView.Repository.Tests;

/// <summary>Every link of a page leads somewhere.</summary>
public sealed class MarkdownLinkTests
{
    private static IEnumerable<string> Pages => Tree.FilesEndingIn(".md");

    [Fact]
    public void RelativeLink_LeadsToAFileAndAHeading() =>
        Findings.AssertNone(
            "Links that lead nowhere:",
            from page in Pages
            from target in Markdown.LinkTargets(page)
            where !target.Contains("://", StringComparison.Ordinal) && !target.StartsWith("mailto:", StringComparison.Ordinal)
            let fault = Fault(page, target)
            where fault is not null
            select $"{page}: {target}: {fault}");

    [Fact]
    public void DocsPage_IsReachedFromAnotherPage()
    {
        HashSet<string> linked =
        [
            .. from page in Pages
               from target in Markdown.LinkTargets(page)
               where !target.Contains("://", StringComparison.Ordinal)
               let file = Resolve(page, target)
               where file != page
               select file,
        ];

        Findings.AssertNone(
            "Pages that no other page links to:",
            Pages.Where(page => page.StartsWith("docs/", StringComparison.Ordinal)
                && !linked.Contains(page)
                && !(Path.GetFileName(page) == "README.md" && linked.Contains(Path.GetDirectoryName(page)!))));
    }

    [Theory]
    [InlineData("README.md", "no-such-page.md")]
    [InlineData("README.md", "#no-such-heading")]
    [InlineData("README.md", "readme.md")]
    [InlineData("README.md", "../outside.md")]
    public void Rule_FindsALinkThatLeadsNowhere(string page, string target) => Assert.NotNull(Fault(page, target));

    [Theory]
    [InlineData("README.md", "DEVELOPERS.md")]
    [InlineData("tests/NOTES.md", "../LICENSE")]
    [InlineData("README.md", "src/")]
    public void Rule_AcceptsALinkThatLeadsSomewhere(string page, string target) => Assert.Null(Fault(page, target));

    private static string? Fault(string page, string target)
    {
        string file = Resolve(page, target);
        if (!Tree.Holds(file))
        {
            return "no such file";
        }

        string anchor = target.Contains('#', StringComparison.Ordinal) ? target[(target.IndexOf('#', StringComparison.Ordinal) + 1)..] : string.Empty;
        return anchor.Length == 0 || Markdown.Anchors(file).Contains(anchor, StringComparer.Ordinal) ? null : "no such heading";
    }

    // The path of a target relative to the root; what leaves the repository keeps its "..".
    private static string Resolve(string page, string target)
    {
        string path = Uri.UnescapeDataString(target.Split('#')[0]);
        string folder = Path.GetDirectoryName(page) ?? string.Empty;
        return path.Length == 0 ? page : Path.GetRelativePath(Tree.Root, Path.GetFullPath(Path.Combine(Tree.Root, folder, path)));
    }
}

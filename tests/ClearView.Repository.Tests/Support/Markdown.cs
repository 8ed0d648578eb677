using Markdig;
using Markdig.Renderers.Html;
using Markdig.Syntax;
using Markdig.Syntax.Inlines;

namespace ClearView.Repository.Tests.Support;

/// <summary>What stands in the pages of the repository.</summary>
internal static class Markdown
{
    private static readonly string[] ShellLanguages = ["bash", "sh", "shell", "console"];

    private static readonly MarkdownPipeline Pipeline = new MarkdownPipelineBuilder()
        .UseAutoIdentifiers(Markdig.Extensions.AutoIdentifiers.AutoIdentifierOptions.GitHub)
        .UsePipeTables()
        .Build();

    /// <summary>A page, parsed.</summary>
    public static MarkdownDocument Parse(string file) => Markdig.Markdown.Parse(Tree.Read(file), Pipeline);

    /// <summary>The targets of a page's links and pictures.</summary>
    public static IEnumerable<string> LinkTargets(string file) =>
        Parse(file).Descendants<LinkInline>().Select(link => link.Url ?? string.Empty);

    /// <summary>The anchors of a page's headings, as browsers of repositories make them.</summary>
    public static IEnumerable<string> Anchors(string file) =>
        Parse(file).Descendants<HeadingBlock>().Select(heading => heading.GetAttributes().Id).OfType<string>();

    /// <summary>The running text of a page: no code, no addresses.</summary>
    public static IEnumerable<string> Prose(string file) =>
        Parse(file).Descendants<LiteralInline>().Select(literal => literal.Content.ToString());

    /// <summary>The commands in a page's shell blocks, continued lines joined, prompts and comments removed.</summary>
    public static IEnumerable<string> Commands(string file) =>
        Parse(file).Descendants<FencedCodeBlock>()
            .Where(block => ShellLanguages.Contains(block.Info, StringComparer.Ordinal))
            .SelectMany(block => Commands(block.Lines.ToString(), promptsOnly: block.Info == "console"));

    // In a block of kind "console" only lines with a prompt are commands; the others are what was printed.
    private static IEnumerable<string> Commands(string text, bool promptsOnly) =>
        text.Replace("\\\n", " ", StringComparison.Ordinal)
            .Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
            .Where(line => !promptsOnly || line.StartsWith("$ ", StringComparison.Ordinal))
            .Select(line => line.StartsWith("$ ", StringComparison.Ordinal) ? line[2..] : line)
            .Where(line => !line.StartsWith('#'));
}

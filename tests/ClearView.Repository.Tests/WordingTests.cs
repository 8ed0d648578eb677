using System.Text.RegularExpressions;

using ClearView.Repository.Tests.Support;

namespace ClearView.Repository.Tests;

/// <summary>What no file of the repository says.</summary>
public sealed class WordingTests
{
    // Written in pieces, so that this file does not say it either.
    private static readonly (string Pattern, string Why)[] Unwanted =
    [
        (@"npm" + @"js\.(?:org|com)|nuget\.(?:org|cdn)|py" + @"pi\.org|python" + @"hosted|deb" + @"ian\.org|registry" + @"\.[a-z]+\.", "the host of a package registry: which one serves is set up on each machine"),
        (@"(?<![\w.~/$}-])/(?:wo" + @"rk|ho" + @"me|ro" + @"ot|Us" + @"ers|m" + @"nt)/\w", "a path of one machine"),
        (@"(?<![\w.])/tm" + @"p/\w", "a path of one machine: ask the system for its temporary folder"),
        (@"\b(?:chat" + @"bot|lang" + @"uage model|LL" + @"M|A" + @"I assistant|A" + @"I agent)s?\b", "how the text came about is not its matter"),
        (@"\b(?:iss" + @"ue|tick" + @"et) ?#?\d+\b", "a pointer that a clone cannot follow"),
        (@"<{7} |>{7} ", "a merge that was not finished"),
    ];

    [Fact]
    public void TextFile_HoldsNothingThatTiesItToOneMachineOrMoment()
    {
        List<string> findings = [];
        foreach (string file in Tree.Files.Where(IsText))
        {
            string[] lines = Tree.ReadLines(file);
            findings.AddRange(
                from rule in Unwanted
                from line in lines.Index()
                where Regex.IsMatch(line.Item, rule.Pattern, RegexOptions.IgnoreCase)
                select $"{file}:{line.Index + 1}: {line.Item.Trim()} ({rule.Why})");
        }

        Findings.AssertNone("Unwanted wording:", findings);
    }

    [Theory]
    [InlineData("https://registry" + ".npm" + "js.org/x")]
    [InlineData("see /wo" + "rk/main")]
    [InlineData("(/ho" + "me/someone/x)")]
    [InlineData("closes iss" + "ue 12")]
    public void Rules_FindWhatTheyAreFor(string text) =>
        Assert.Contains(Unwanted, rule => Regex.IsMatch(text, rule.Pattern, RegexOptions.IgnoreCase));

    [Fact]
    public void Prose_IsSpeltTheBritishWay() =>
        Findings.AssertNone(
            "Spelling:",
            from file in Tree.FilesEndingIn(".md")
            from text in Markdown.Prose(file)
            where Regex.IsMatch(text, @"\bcolor(?:s|ed|imetry)?\b|\bgr" + @"ay\b|\bfib" + @"er\b", RegexOptions.IgnoreCase)
                && !text.Contains("python3-", StringComparison.Ordinal)
                && !text.Contains("colord", StringComparison.Ordinal)
            select $"{file}: {text}");

    [Fact]
    public void TextFile_IsPlainUtf8WithUnixLineEnds()
    {
        List<string> findings = [];
        foreach (string file in Tree.Files.Where(IsText))
        {
            byte[] bytes = File.ReadAllBytes(Tree.FullPath(file));
            // The classic solution format begins with the mark.
            if (bytes.AsSpan().StartsWith("\uFEFF"u8) && !file.EndsWith(".sln", StringComparison.Ordinal))
            {
                findings.Add($"{file}: byte order mark");
            }

            if (bytes.AsSpan().Contains((byte)'\r'))
            {
                findings.Add($"{file}: carriage return");
            }
        }

        Findings.AssertNone("Encoding:", findings);
    }

    // Samples are odd on purpose; pictures and documents are not text.
    private static bool IsText(string file) =>
        !file.Contains("/Samples/", StringComparison.Ordinal)
        && Path.GetExtension(file) is not (".png" or ".svg" or ".pdf" or ".ico" or ".woff2" or ".db");
}

using System.Text.RegularExpressions;

using ClearView.Repository.Tests.Support;

namespace ClearView.Repository.Tests;

/// <summary>Habits of the source that neither compiler nor formatter checks.</summary>
public sealed partial class SourceTests
{
    private const int MaximumCodeLines = 400;

    // Where the clock or the dice of the machine are the right ones, and why.
    private static readonly Dictionary<string, string> Excused = new(StringComparer.Ordinal)
    {
        ["clients/ClearView.Client/ClearViewClient.cs"] = "a gRPC deadline is a time of the machine's clock",
        ["clients/ClearView.Client/Calls/RetryRules.cs"] = "clients that fail together must not retry together",
    };

    private static IEnumerable<string> Sources => Tree.FilesEndingIn(".cs");

    private static IEnumerable<string> ProductSources =>
        Sources.Where(file => !file.StartsWith("tests/", StringComparison.Ordinal));

    [Fact]
    public void Namespace_IsTheFolder()
    {
        IEnumerable<string> findings =
            from file in Sources
            let expected = ExpectedNamespace(file)
            let declared = NamespaceLine().Match(Tree.Read(file))
            where declared.Success && declared.Groups["name"].Value != expected
            select $"{file}: {declared.Groups["name"].Value}, expected {expected}";

        Findings.AssertNone("Folder and namespace differ:", findings);
    }

    [Fact]
    public void Namespace_IsDeclaredForTheWholeFile() =>
        Findings.AssertNone(
            "Types outside a file-scoped namespace:",
            Sources.Where(file => TypeNames(file).Any() && !NamespaceLine().IsMatch(Tree.Read(file))));

    [Fact]
    public void File_HoldsOneTypeAndBearsItsName()
    {
        IEnumerable<string> findings =
            from file in Sources
            let types = TypeNames(file).ToArray()
            let name = Path.GetFileNameWithoutExtension(file).Split('.', '{', '`')[0]
            where types.Length > 1 || types.Any(type => type != name)
            select $"{file}: {string.Join(", ", types)}";

        Findings.AssertNone("Not one type per file, or a file named otherwise:", findings);
    }

    [Fact]
    public void File_IsShortEnoughToRead()
    {
        IEnumerable<string> findings =
            from file in Sources
            let lines = CodeLines(file)
            where lines > MaximumCodeLines
            select $"{file}: {lines} code lines";

        Findings.AssertNone($"More than {MaximumCodeLines} code lines:", findings);
    }

    [Fact]
    public void ProductSource_HoldsNothingUnfinished()
    {
        IEnumerable<string> findings =
            from file in ProductSources
            from mark in new[] { "NotImplementedException", "TO" + "DO", "FIX" + "ME", "HA" + "CK" }
            where Regex.IsMatch(Tree.Read(file), $@"\b{mark}\b")
            select $"{file}: {mark}";

        Findings.AssertNone("Marks of unfinished work:", findings);
    }

    [Fact]
    public void ProductSource_TakesTimeFromTimeProvider() =>
        Findings.AssertNone(
            "Reads the clock of the machine:",
            ProductSources.Where(file => MachineClock().IsMatch(Tree.Read(file)) && !Excused.ContainsKey(file)));

    [Fact]
    public void Source_DrawsNoUnseededNumbers() =>
        Findings.AssertNone(
            "Randomness without a seed:",
            Sources.Where(file => UnseededRandom().IsMatch(Tree.Read(file)) && !Excused.ContainsKey(file)));

    [Fact]
    public void Excuse_IsStillNeeded() =>
        Findings.AssertNone(
            "Excused here, but the file is gone or needs no excuse:",
            Excused.Keys.Where(file => !Tree.Holds(file) || !(MachineClock().IsMatch(Tree.Read(file)) || UnseededRandom().IsMatch(Tree.Read(file)))));

    [Fact]
    public void Source_SuppressesWarningsOnlyWithAReason()
    {
        IEnumerable<string> findings =
            from file in Sources
            let lines = Tree.ReadLines(file)
            from line in lines.Index()
            where line.Item.TrimStart().StartsWith("#pragma warning disable", StringComparison.Ordinal)
            // The reason stands on the line or within the three above it.
            where !lines[Math.Max(line.Index - 3, 0)..(line.Index + 1)].Any(near => near.Contains("//", StringComparison.Ordinal))
            select $"{file}:{line.Index + 1}: {line.Item.Trim()}";

        Findings.AssertNone("A warning is switched off and nobody says why:", findings);
    }

    private static string ExpectedNamespace(string file)
    {
        string project = ProjectFile.Above(file) ?? throw new InvalidOperationException($"{file} belongs to no project.");
        string root = ProjectFile.Property(project, "RootNamespace") ?? Path.GetFileNameWithoutExtension(project);
        string relative = Path.GetRelativePath(Path.GetDirectoryName(project)!, Path.GetDirectoryName(file)!);
        return relative == "." ? root : $"{root}.{relative.Replace('/', '.')}";
    }

    private static IEnumerable<string> TypeNames(string file) =>
        TypeLine().Matches(Tree.Read(file)).Select(match => match.Groups["name"].Value);

    private static int CodeLines(string file) =>
        Tree.ReadLines(file).Select(line => line.Trim()).Count(line => line.Length > 0 && !line.StartsWith("//", StringComparison.Ordinal));

    [GeneratedRegex(@"^namespace (?<name>[\w.]+);", RegexOptions.Multiline)]
    private static partial Regex NamespaceLine();

    // Types stand in the first column, since namespaces hold for the whole file.
    [GeneratedRegex(
        @"^(?:(?:public|internal|file|static|sealed|abstract|readonly|ref|partial|unsafe) )*(?:(?:class|struct|interface|enum|record(?: struct| class)?) (?<name>\w+)|delegate [^(\n]* (?<name>\w+)(?:<[^>(\n]*>)?\()",
        RegexOptions.Multiline)]
    private static partial Regex TypeLine();

    [GeneratedRegex(@"\bDateTime(?:Offset)?\.(?:Utc)?(?:Now|Today)\b")]
    private static partial Regex MachineClock();

    [GeneratedRegex(@"\bnew Random\(\)|\bRandom\.Shared\b|\bRandom \w+ = new\(\)")]
    private static partial Regex UnseededRandom();
}

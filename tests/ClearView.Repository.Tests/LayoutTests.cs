using ClearView.Repository.Tests.Support;

namespace ClearView.Repository.Tests;

/// <summary>Where things stand, so that each has one place to be looked for.</summary>
public sealed class LayoutTests
{
    private static readonly string[] TopLevelFolders = ["clients", "docs", "protos", "src", "tests"];

    // What tools look for at the top and nowhere else, beside the four files that people look for.
    private static readonly string[] TopLevelFiles =
    [
        "ClearView.sln", "DEVELOPERS.md", "LICENSE", "README.md",
        "Directory.Build.props", "Directory.Build.targets", "Directory.Packages.props", "global.json",
    ];

    [Fact]
    public void TopLevel_HoldsOnlyTheAgreedEntries()
    {
        IEnumerable<string> unexpected = Tree.Files
            .Select(file => file.Split('/'))
            .Where(parts => !parts[0].StartsWith('.'))
            .Where(parts => !(parts.Length == 1 ? TopLevelFiles : TopLevelFolders).Contains(parts[0], StringComparer.Ordinal))
            .Select(parts => parts[0])
            .Distinct();

        Findings.AssertNone("Not an entry of the top level:", unexpected);
    }

    [Theory]
    [InlineData("README.md")]
    [InlineData("DEVELOPERS.md")]
    [InlineData("LICENSE")]
    [InlineData("ClearView.sln")]
    [InlineData("docs/CHANGELOG.md")]
    public void Repository_HoldsWhatEveryoneLooksFor(string file) => Assert.True(Tree.Holds(file), $"{file} is missing.");

    [Fact]
    public void Solution_HoldsEveryProject()
    {
        string solution = Tree.Read("ClearView.sln").Replace('\\', '/');

        Findings.AssertNone(
            "Not in ClearView.sln:",
            Tree.FilesEndingIn(".csproj").Where(project => !solution.Contains($"\"{project}\"", StringComparison.Ordinal)));
    }

    [Fact]
    public void Projects_HaveTestsAndALockFile()
    {
        string[] projects = [.. Tree.FilesEndingIn(".csproj")];
        IEnumerable<string> untested = projects
            .Where(project => !project.StartsWith("tests/", StringComparison.Ordinal))
            .Select(project => Path.GetFileNameWithoutExtension(project))
            .Where(name => !Tree.Holds($"tests/{name}.Tests/{name}.Tests.csproj"))
            .Select(name => $"{name} has no test project.");
        IEnumerable<string> unlocked = projects
            .Where(project => !Tree.Holds($"{Path.GetDirectoryName(project)}/packages.lock.json"))
            .Select(project => $"{project} has no lock file.");

        Findings.AssertNone("Projects that lack something:", untested.Concat(unlocked));
    }

    [Fact]
    public void PackageVersions_StandInOnePlace() =>
        Findings.AssertNone(
            "A version outside Directory.Packages.props:",
            Tree.FilesEndingIn(".csproj").Where(project =>
                Tree.Read(project).Split("<PackageReference").Skip(1).Any(item => item.Split('>')[0].Contains("Version=", StringComparison.Ordinal))));
}

using System.Security.Cryptography;
using System.Text.RegularExpressions;

using ClearView.Repository.Tests.Support;

namespace ClearView.Repository.Tests;

/// <summary>Every table of figures has its row, with source and checksum, in the README beside it.</summary>
public sealed partial class DataFileTests
{
    private static IEnumerable<string> Readmes => Tree.FilesEndingIn("/Data/README.md");

    [Fact]
    public void OpticsData_HasAReadme() => Assert.Contains("src/ClearView.Optics/Data/README.md", Readmes);

    [Fact]
    public void DataFile_HasExactlyOneRow()
    {
        IEnumerable<string> findings =
            from file in Tree.Files
            where file.Contains("/Data/", StringComparison.Ordinal) && Path.GetFileName(file) != "README.md"
            let readme = $"{Path.GetDirectoryName(file)}/README.md"
            let rows = Tree.Holds(readme) ? Rows(readme).Count(row => row.File == Path.GetFileName(file)) : 0
            where rows != 1
            select $"{file}: {rows} rows in {readme}";

        Findings.AssertNone("Figures without source:", findings);
    }

    [Fact]
    public void Row_NamesAFileWithThatChecksum()
    {
        IEnumerable<string> findings =
            from readme in Readmes
            from row in Rows(readme)
            let file = $"{Path.GetDirectoryName(readme)}/{row.File}"
            where !Tree.Holds(file) || Sha256(file) != row.Sha256
            select $"{file}: {(Tree.Holds(file) ? Sha256(file) : "no such file")}, the README says {row.Sha256}";

        Findings.AssertNone("Figures that changed, or went:", findings);
    }

    private static IEnumerable<(string File, string Sha256)> Rows(string readme) =>
        Row().Matches(Tree.Read(readme)).Select(row => (row.Groups["file"].Value, row.Groups["sum"].Value));

    private static string Sha256(string file) => Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Tree.FullPath(file))));

    [GeneratedRegex(@"^\| *`?(?<file>[\w.-]+)`? *\|.*\b(?<sum>[0-9a-f]{64})\b", RegexOptions.Multiline)]
    private static partial Regex Row();
}

using ClearView.Console.Commands.Outboxes;

namespace ClearView.Console.Tests.Commands;

public sealed class NestedFoldersTests : IDisposable
{
    private readonly DirectoryInfo _root = Directory.CreateTempSubdirectory("clearview-nested-");

    public void Dispose() => _root.Delete(recursive: true);

    [Theory]
    [InlineData(true, "scans", "scans")]
    [InlineData(true, "scans/", "scans")]
    [InlineData(true, "scans/done", "scans/")]
    [InlineData(true, "other/../scans/a/b", "scans")]
    [InlineData(false, "scans-done", "scans")]
    [InlineData(false, "done", "scans")]
    [InlineData(false, "scans/../done", "scans")]
    [InlineData(false, "scans", "scans/in")]
    public void IsAtOrBelow_Paths_AreComparedByTheirFolders(bool expected, string folder, string outer) =>
        Assert.Equal(expected, NestedFolders.IsAtOrBelow(Path.Combine(_root.FullName, folder), Path.Combine(_root.FullName, outer)));

    [Fact]
    public void IsAtOrBelow_LinkLeadsThere_IsFollowed()
    {
        var scans = _root.CreateSubdirectory("scans");
        var link = Directory.CreateSymbolicLink(Path.Combine(_root.FullName, "link"), scans.FullName);

        Assert.True(NestedFolders.IsAtOrBelow(Path.Combine(link.FullName, "done"), scans.FullName));
        Assert.True(NestedFolders.IsAtOrBelow(Path.Combine(scans.FullName, "done"), link.FullName));
    }
}

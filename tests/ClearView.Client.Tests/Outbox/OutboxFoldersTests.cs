using ClearView.Client.Outbox;

namespace ClearView.Client.Tests.Outbox;

/// <summary>A folder that was created is there after a power cut only once the folder above it is flushed.</summary>
public sealed class OutboxFoldersTests : IDisposable
{
    private readonly DirectoryInfo _root = Directory.CreateTempSubdirectory("clearview-outbox-folders-");

    public void Dispose() => _root.Delete(recursive: true);

    [Fact]
    public void Open_FoldersAreCreated_FlushesTheOneAboveEach()
    {
        var line = Path.Combine(_root.FullName, "plant", "line3");
        var outbox = Path.Combine(line, "outbox");
        List<string> flushed = [];

        ReadingOutbox.Open(outbox, new OutboxOptions { FlushFolder = flushed.Add }).Dispose();

        Assert.Equal([_root.FullName, Path.GetDirectoryName(line)!, line], flushed.Where(folder => folder != outbox));
        Assert.Contains(outbox, flushed);
    }

    [Fact]
    public void Open_FoldersAreThere_LeavesThoseAboveAlone()
    {
        var outbox = Path.Combine(_root.FullName, "outbox");
        ReadingOutbox.Open(outbox).Dispose();
        List<string> flushed = [];

        ReadingOutbox.Open(outbox, new OutboxOptions { FlushFolder = flushed.Add }).Dispose();

        Assert.Equal([outbox], flushed);
    }
}

using ClearView.Client.Outbox;

using Microsoft.Extensions.Time.Testing;

namespace ClearView.Client.Tests.Outbox;

/// <summary>A file of a followed folder is taken when it has stopped changing, and once.</summary>
public sealed class FollowedFolderTests : IDisposable
{
    private readonly DirectoryInfo _root = Directory.CreateTempSubdirectory("clearview-followed-");
    private readonly FakeTimeProvider _clock = new();

    private string Scans => Path.Combine(_root.FullName, "scans");

    private string Memory => Path.Combine(_root.FullName, "taken.jsonl");

    public void Dispose() => _root.Delete(recursive: true);

    [Fact]
    public void FindWhole_FileStillGrows_WaitsUntilItHasSettled()
    {
        var path = Make("one.csv", "a");
        var followed = new FollowedFolder(Scans, TimeSpan.FromSeconds(2), _clock);

        Assert.Empty(followed.FindWhole(_ => false));
        _clock.Advance(TimeSpan.FromSeconds(1.9));
        Assert.Empty(followed.FindWhole(_ => false));
        File.AppendAllText(path, "b");
        _clock.Advance(TimeSpan.FromSeconds(1));
        Assert.Empty(followed.FindWhole(_ => false));
        _clock.Advance(TimeSpan.FromSeconds(2));
        Assert.Equal([path], followed.FindWhole(_ => false).Select(file => file.FullName));
    }

    [Fact]
    public void FindWhole_EmptyOrKnownFile_IsPassedOver()
    {
        Make("empty.csv", "");
        var known = Make("known.csv", "a");
        var followed = new FollowedFolder(Scans, TimeSpan.Zero, _clock);

        followed.FindWhole(file => file.FullName == known);
        _clock.Advance(TimeSpan.FromHours(1));

        Assert.Empty(followed.FindWhole(file => file.FullName == known));
    }

    [Fact]
    public void FindWhole_SeveralFiles_ComeInTheOrderOfTheirNames()
    {
        string[] paths = [Make("b.csv", "b"), Make("a.csv", "a"), Make("c.csv", "c")];
        var followed = new FollowedFolder(Scans, TimeSpan.Zero, _clock);

        followed.FindWhole(_ => false);

        Assert.Equal(paths.Order(StringComparer.Ordinal), followed.FindWhole(_ => false).Select(file => file.FullName));
    }

    [Fact]
    public void Taken_OpenedAgain_KnowsTheFileUntilItChanges()
    {
        var path = Make("one.csv", "a");
        new TakenFiles(_root.FullName).Add(new FileInfo(path));

        Assert.True(new TakenFiles(_root.FullName).Contains(new FileInfo(path)));
        File.AppendAllText(path, "b");
        Assert.False(new TakenFiles(_root.FullName).Contains(new FileInfo(path)));
    }

    [Fact]
    public void Taken_LastLineCutOff_KnowsTheOthersAndGoesOn()
    {
        string[] paths = [Make("a.csv", "a"), Make("b.csv", "b"), Make("c.csv", "c")];
        var taken = new TakenFiles(_root.FullName);
        taken.Add(new FileInfo(paths[0]));
        taken.Add(new FileInfo(paths[1]));
        var text = File.ReadAllText(Memory);
        File.WriteAllText(Memory, text[..^5]);

        var again = new TakenFiles(_root.FullName);
        Assert.Equal([true, false, false], paths.Select(path => again.Contains(new FileInfo(path))));
        again.Add(new FileInfo(paths[2]));

        var third = new TakenFiles(_root.FullName);
        Assert.Equal([true, false, true], paths.Select(path => third.Contains(new FileInfo(path))));
    }

    [Fact]
    public void Taken_MostFilesAreGone_ForgetsThemAndKeepsTheOthers()
    {
        var kept = Make("kept.csv", "a");
        new TakenFiles(_root.FullName).Add(new FileInfo(kept));
        var line = File.ReadAllText(Memory);
        var gone = Enumerable.Range(0, 1500).Select(number => line.Replace("kept.csv", FormattableString.Invariant($"gone-{number}.csv"), StringComparison.Ordinal));
        var unreachable = line.Replace("scans", "unreachable", StringComparison.Ordinal);
        File.WriteAllText(Memory, string.Join('\n', gone.Append(line).Append(unreachable)));

        Assert.True(new TakenFiles(_root.FullName).Contains(new FileInfo(kept)));

        Assert.Equal([line, unreachable], File.ReadAllLines(Memory));
        Assert.True(new TakenFiles(_root.FullName).Contains(new FileInfo(kept)));
    }

    private string Make(string name, string text)
    {
        Directory.CreateDirectory(Scans);
        var path = Path.Combine(Scans, name);
        File.WriteAllText(path, text);
        return path;
    }
}

using ClearView.Client.Files;
using ClearView.Client.Outbox;
using ClearView.Console.Commands.Outboxes;
using ClearView.Console.Rendering;
using ClearView.V1;

using Microsoft.Extensions.Time.Testing;

namespace ClearView.Console.Tests.Commands;

/// <summary>Each content of a followed file reaches the outbox, whatever its folder does meanwhile.</summary>
public sealed class FolderFollowerTests : IDisposable
{
    private readonly DirectoryInfo _root = Directory.CreateTempSubdirectory("clearview-follower-");
    private readonly StringWriter _errors = new();
    private readonly List<string> _accepted = [];
    private readonly OutboxScreen _screen;
    private Action _whileAccepting = () => { };
    private Action<string> _whileReading = _ => { };

    public FolderFollowerTests()
    {
        Directory.CreateDirectory(Scans);
        _screen = new OutboxScreen(new Screen(TextWriter.Null, _errors), [], asJson: false);
    }

    private string Scans => Path.Combine(_root.FullName, "scans");

    private string Done => Path.Combine(_root.FullName, "done");

    private string Memory => Path.Combine(_root.FullName, "taken.jsonl");

    private int ToldFaults => _errors.ToString().Split("error:").Length - 1;

    public void Dispose()
    {
        _errors.Dispose();
        _root.Delete(recursive: true);
    }

    [Fact]
    public async Task Poll_FileIsHeldForAMoment_TellsOnceAndTakesItWhenItIsFree()
    {
        var path = Make("one.csv", "a");
        var follower = Follow(Done);
        using (new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None))
        {
            await PollAsync(follower, 5);
            Assert.Empty(_accepted);
        }
        await PollAsync(follower, 1);

        Assert.Equal(["a"], _accepted);
        Assert.True(File.Exists(Path.Combine(Done, "one.csv")));
        Assert.Equal(1, ToldFaults);
        Assert.Equal(0, _screen.ExitCode);
    }

    [Fact]
    public async Task Poll_FileIsNoScan_IsLeftAsideUntilItChanges()
    {
        Make("one.csv", "no scan");
        var follower = Follow(Done);

        await PollAsync(follower, 5);
        Assert.Equal(1, ToldFaults);
        Assert.Equal(2, _screen.ExitCode);

        Make("one.csv", "a scan");
        await PollAsync(follower, 2);
        Assert.Equal(["a scan"], _accepted);
    }

    [Fact]
    public async Task Poll_FolderIsAwayForSomePolls_TellsOnceEachTimeAndGoesOn()
    {
        var follower = Follow(done: null);
        for (var time = 1; time <= 2; time++)
        {
            Directory.Delete(Scans, recursive: true);
            await PollAsync(follower, 3);
            Assert.Equal(time, ToldFaults);
            Directory.CreateDirectory(Scans);
            await PollAsync(follower, 1);
        }
        Make("one.csv", "a");
        await PollAsync(follower, 2);

        Assert.Equal(["a"], _accepted);
    }

    [Fact]
    public async Task Poll_FileCannotBeMoved_TellsOnceTakesTheOthersAndMovesItLater()
    {
        Make("one.csv", "a");
        await File.WriteAllTextAsync(Done, "a file where the folder is to be", TestContext.Current.CancellationToken);
        var follower = Follow(Done);

        await PollAsync(follower, 4);
        Assert.Equal(1, ToldFaults);
        Make("two.csv", "b");
        await PollAsync(follower, 4);
        Assert.Equal(2, ToldFaults);

        File.Delete(Done);
        await PollAsync(follower, 1);
        Assert.Equal(["a", "b"], _accepted);
        Assert.Equal(["one.csv", "two.csv"], Directory.GetFiles(Done).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Poll_FileVanishesWhileItsReadingsAreTaken_GoesOn()
    {
        var path = Make("one.csv", "a");
        Make("two.csv", "b");
        _whileAccepting = () => File.Delete(path);

        await PollAsync(Follow(Done), 3);

        Assert.Equal(["a", "b"], _accepted);
        Assert.Equal(["two.csv"], Directory.GetFiles(Done).Select(Path.GetFileName));
        Assert.Equal(0, ToldFaults);
    }

    [Fact]
    public async Task Poll_TakenCannotBeNoted_TellsOnceDoesNotTakeItAgainAndNotesItLater()
    {
        var path = Make("one.csv", "a");
        var follower = Follow(done: null);
        Directory.CreateDirectory(Memory);

        await PollAsync(follower, 5);
        Assert.Equal(["a"], _accepted);
        Assert.Equal(1, ToldFaults);

        Directory.Delete(Memory);
        await PollAsync(follower, 1);
        Assert.Equal(["a"], _accepted);
        Assert.True(new TakenFiles(_root.FullName).Contains(new FileInfo(path)));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Poll_FileIsReplacedWhileItsReadingsWaitForRoom_IsReadAsNewContent(bool isMoved)
    {
        var path = Make("one.csv", "a");
        var written = File.GetLastWriteTimeUtc(path);
        _whileAccepting = () =>
        {
            Make("one.csv", "another");
            _whileAccepting = () => { };
        };
        var follower = Follow(isMoved ? Done : null);

        await PollAsync(follower, 2);
        Assert.Equal(["a"], _accepted);
        Assert.True(File.Exists(path));
        var taken = new TakenFiles(_root.FullName);
        Assert.False(taken.Contains(new FileInfo(path)));

        await PollAsync(follower, 2);
        Assert.Equal(["a", "another"], _accepted);
        Assert.Equal(isMoved, !File.Exists(path));

        // What was read is what is known.
        Make("one.csv", "a");
        File.SetLastWriteTimeUtc(path, written);
        Assert.True(new TakenFiles(_root.FullName).Contains(new FileInfo(path)));
    }

    [Fact]
    public async Task Poll_FileIsReplacedWhileAnotherIsTaken_IsKnownByWhatWasRead()
    {
        Make("one.csv", "a");
        var path = Make("two.csv", "b");
        _whileAccepting = () =>
        {
            Make("two.csv", "another");
            _whileAccepting = () => { };
        };
        var follower = Follow(Done);

        await PollAsync(follower, 2);
        Assert.True(File.Exists(path));
        await PollAsync(follower, 3);

        Assert.Equal(["a", "another"], _accepted);
        Assert.False(File.Exists(path));
    }

    [Fact]
    public async Task Poll_FileIsReplacedWhileItIsRead_IsReadAgain()
    {
        Make("one.csv", "a");
        _whileReading = path =>
        {
            _whileReading = _ => { };
            File.WriteAllText(path, "another");
        };

        await PollAsync(Follow(Done), 4);

        Assert.Equal(["another"], _accepted);
    }

    private static async Task PollAsync(FolderFollower follower, int times)
    {
        for (var i = 0; i < times; i++)
        {
            await follower.PollAsync();
        }
    }

    // Every content is a reading that bears it as its name. As the reader of scans does, faults of the file are inner exceptions.
    private FolderFollower Follow(string? done) => new(
        new FollowedFolder(Scans, TimeSpan.Zero, new FakeTimeProvider()), new TakenFiles(_root.FullName), done, Read,
        requests =>
        {
            _accepted.AddRange(requests.Select(request => request.ReadingId));
            _whileAccepting();
            return Task.CompletedTask;
        },
        _screen);

    private IReadOnlyList<PostReadingRequest> Read(string path)
    {
        try
        {
            using var reader = new StreamReader(File.OpenRead(path));
            var text = reader.ReadToEnd();
            _whileReading(path);
            return text == "no scan"
                ? throw new ScanFileException(path, 1, null, "no header row", "a scan")
                : [new PostReadingRequest { ReadingId = text }];
        }
        catch (IOException e)
        {
            throw new ScanFileException(path, null, null, e.Message.TrimEnd('.'), "a file that can be read", e);
        }
    }

    private string Make(string name, string text)
    {
        var path = Path.Combine(Scans, name);
        File.WriteAllText(path, text);
        return path;
    }
}

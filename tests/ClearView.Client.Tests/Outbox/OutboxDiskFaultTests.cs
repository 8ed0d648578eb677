using System.Collections.Concurrent;
using System.Globalization;

using ClearView.Client.Outbox;
using ClearView.V1;

namespace ClearView.Client.Tests.Outbox;

/// <summary>
/// A disk that does not take what is written, or does not give a file: a folder stands where a file is to be, or another holds it.
/// Nothing is lost or counted as done, and the work goes on once the disk does.
/// </summary>
public sealed class OutboxDiskFaultTests : IDisposable
{
    private static readonly OutboxOptions Quick = new()
    {
        InitialBackoff = TimeSpan.FromMilliseconds(1),
        MaxBackoff = TimeSpan.FromMilliseconds(2),
        LeastFreeBytes = 0,
    };

    private readonly DirectoryInfo _root = Directory.CreateTempSubdirectory("clearview-outbox-fault-");
    private readonly ConcurrentQueue<OutboxEvent> _events = new();
    private readonly TaskCompletionSource _alarmed = new(TaskCreationOptions.RunContinuationsAsynchronously);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Folder => Path.Combine(_root.FullName, "outbox");

    public void Dispose() => _root.Delete(recursive: true);

    [Fact]
    public async Task Open_LimitsCannotBeWritten_OpensAndSendsWhatWaits()
    {
        var posts = Posts(2);
        using (var before = Open())
        {
            before.Accept(posts);
        }
        Block("limits.json.tmp");

        using var outbox = Open();
        var sender = new ScriptedSender(1, 0);
        await new OutboxPump(outbox, sender, Quick).RunAsync(Task.CompletedTask, Token);

        Assert.Equal(posts, sender.Stored);
    }

    [Fact]
    public async Task Open_DamageAndNoSegmentCanBeBegun_SendsWhatWaitsAndTakesNothingBehindTheDamage()
    {
        var posts = Posts(3);
        using (var before = Open())
        {
            before.Accept(posts[..2]);
        }
        await File.AppendAllTextAsync(Path.Combine(Folder, "segments", "000000000001.seg"), "what no poster wrote, longer than a head", Token);
        var blocked = Block("segments/000000000003.seg");

        using var outbox = Open();
        Assert.True(Assert.Throws<OutboxException>(() => outbox.Accept(posts[2])).IsFull);
        var sender = new ScriptedSender(1, 0);
        await new OutboxPump(outbox, sender, Quick).RunAsync(Task.CompletedTask, Token);
        Assert.Equal(posts[..2], sender.Stored);

        Directory.Delete(blocked);
        Assert.Equal(1, outbox.Accept(posts[2]));
        await new OutboxPump(outbox, sender, Quick).RunAsync(Task.CompletedTask, Token);
        Assert.Equal(posts, sender.Stored);
    }

    [Fact]
    public async Task Accept_NoSegmentCanBeBegun_CountsAsFullAndTakesItLater()
    {
        var posts = Posts(2);
        using var outbox = Open(Quick with { SegmentBytes = 1 });
        outbox.Accept(posts[0]);
        var blocked = Block("segments/000000000002.seg");

        Assert.True(Assert.Throws<OutboxException>(() => outbox.Accept(posts[1])).IsFull);
        Assert.Equal(1, OutboxStatus.Read(Folder).Waiting);

        Directory.Delete(blocked);
        Assert.Equal(1, outbox.Accept(posts[1]));
        var sender = new ScriptedSender(1, 0);
        await new OutboxPump(outbox, sender, Quick).RunAsync(Task.CompletedTask, Token);
        Assert.Equal(posts, sender.Stored);
    }

    [Fact]
    public async Task Pump_AcknowledgementsCannotBeWritten_AlarmsOnceAndIsDoneOnlyWhenTheyAre()
    {
        var posts = Posts(3);
        using var outbox = Open();
        outbox.Accept(posts);
        var blocked = Block("segments/000000000001.ack");
        var sender = new ScriptedSender(1, 0);

        var sending = new OutboxPump(outbox, sender, Quick).RunAsync(Task.CompletedTask, Token);
        await await Task.WhenAny(_alarmed.Task, sending);

        Assert.DoesNotContain(_events, one => one.Kind is OutboxEventKind.Stored or OutboxEventKind.AlreadyStored);
        Assert.Equal(3, OutboxStatus.Read(Folder).Waiting);

        Directory.Delete(blocked);
        await sending;

        Assert.Equal(posts, sender.Stored);
        Assert.Equal(posts.Select(post => post.ReadingId), _events.Where(one => one.Kind == OutboxEventKind.Stored).Select(one => one.ReadingId));
        Assert.Single(_events, one => one.Kind == OutboxEventKind.Alarm);
        Assert.Single(_events, one => one.Kind == OutboxEventKind.AlarmEnded);
        Assert.Equal(0, OutboxStatus.Read(Folder).Waiting);
    }

    [Fact]
    public async Task Pump_RefusedReadingCannotBeKept_WaitsUntilItIs()
    {
        var posts = Posts(3);
        using var outbox = Open();
        outbox.Accept(posts);
        var blocked = Block("refused/000000000002.json.tmp");
        var sender = new ScriptedSender(1, 0) { Refused = { posts[1].ReadingId } };

        var sending = new OutboxPump(outbox, sender, Quick).RunAsync(Task.CompletedTask, Token);
        await await Task.WhenAny(_alarmed.Task, sending);

        Assert.DoesNotContain(_events, one => one.Kind is OutboxEventKind.Stored or OutboxEventKind.Refused);

        Directory.Delete(blocked);
        await sending;

        Assert.Equal(posts[1].ReadingId, Assert.Single(OutboxStatus.Read(Folder).Refused).ReadingId);
        Assert.Equal(2, _events.Count(one => one.Kind == OutboxEventKind.Stored));
    }

    [Fact]
    public async Task Pump_RefusedReadingThatIsAskedForIsHeld_TakesItWhenItIsFree()
    {
        var posts = Posts(2);
        using var outbox = Open();
        outbox.Accept(posts);
        var sender = new ScriptedSender(1, 0) { Refused = { posts[0].ReadingId } };
        await new OutboxPump(outbox, sender, Quick).RunAsync(Task.CompletedTask, Token);
        sender.Refused.Clear();
        OutboxRetries.Request(Folder);
        Task sending;
        using (Hold(Path.Combine(Folder, "refused", "000000000001.retry")))
        {
            sending = new OutboxPump(outbox, sender, Quick).RunAsync(Task.CompletedTask, Token);
            await await Task.WhenAny(_alarmed.Task, sending);
        }

        await sending;

        Assert.Equal([posts[1], posts[0]], sender.Stored);
        Assert.Empty(OutboxStatus.Read(Folder).Quarantined);
        Assert.Empty(Directory.GetFiles(Path.Combine(Folder, "refused")));
    }

    [Fact]
    public async Task Pump_EventsCannotBeTold_SendsAllTheSame()
    {
        var posts = Posts(2);
        using var outbox = ReadingOutbox.Open(Folder, Quick, _ => throw new IOException("No space left on device"));
        outbox.Accept(posts);
        var sender = new ScriptedSender(1, 0);

        await new OutboxPump(outbox, sender, Quick).RunAsync(Task.CompletedTask, Token);

        Assert.Equal(posts, sender.Stored);
        Assert.True(outbox.IsEmpty);
    }

    [Fact]
    public void Taken_ListCannotBeShortened_KeepsTheLongerOne()
    {
        var scan = Path.Combine(_root.FullName, "kept.csv");
        File.WriteAllText(scan, "a");
        new TakenFiles(_root.FullName).Add(new FileInfo(scan));
        var memory = Path.Combine(_root.FullName, "taken.jsonl");
        var line = File.ReadAllText(memory);
        File.WriteAllText(memory, string.Join('\n', Enumerable.Range(0, 1500).Select(i => line.Replace("kept", $"gone-{i}", StringComparison.Ordinal)).Append(line)));
        Directory.CreateDirectory(memory + ".tmp");

        Assert.True(new TakenFiles(_root.FullName).Contains(new FileInfo(scan)));
        Assert.Equal(1501, File.ReadLines(memory).Count());
    }

    private static FileStream Hold(string path) => new(path, FileMode.Open, FileAccess.ReadWrite, FileShare.None);

    private static List<PostReadingRequest> Posts(int count) =>
    [
        .. Enumerable.Range(0, count).Select(i => new PostReadingRequest
        {
            ReadingId = string.Create(CultureInfo.InvariantCulture, $"reading-{i}"),
            Measurement = new Measurement { Identification = new Identification { Line = "3", Specimen = string.Create(CultureInfo.InvariantCulture, $"S-{i}") } },
        }),
    ];

    // A folder where a file is to be written: not even an administrator can write it.
    private string Block(string name) => Directory.CreateDirectory(Path.Combine(Folder, name)).FullName;

    private ReadingOutbox Open(OutboxOptions? options = null) => ReadingOutbox.Open(Folder, options ?? Quick, what =>
    {
        _events.Enqueue(what);
        if (what.Kind == OutboxEventKind.Alarm)
        {
            _alarmed.TrySetResult();
        }
    });
}

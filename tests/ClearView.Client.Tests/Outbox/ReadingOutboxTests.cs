using System.Globalization;

using ClearView.Client.Outbox;
using ClearView.V1;

using FsCheck;
using FsCheck.Fluent;

namespace ClearView.Client.Tests.Outbox;

/// <summary>Nothing that was accepted is lost, and nothing is stored twice or out of its order.</summary>
public sealed class ReadingOutboxTests : IDisposable
{
    private static readonly OutboxOptions Quick = new()
    {
        InitialBackoff = TimeSpan.FromMilliseconds(1),
        MaxBackoff = TimeSpan.FromMilliseconds(2),
        LeastFreeBytes = 0,
        SegmentBytes = 600,
        BatchSize = 3,
    };

    private readonly DirectoryInfo _root = Directory.CreateTempSubdirectory("clearview-outbox-");
    private readonly List<OutboxEvent> _events = [];

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Folder => Path.Combine(_root.FullName, "outbox");

    public void Dispose() => _root.Delete(recursive: true);

    [Fact]
    public void Crc32_OfTheCheckText_IsThePublishedValue() =>
        // Check value of CRC-32 (IEEE 802.3, ITU-T V.42) over "123456789", from memory.
        Assert.Equal(0xCBF43926u, Crc32.Of("123456789"u8));

    [Fact]
    public async Task Open_LastRecordCutAtEveryByte_KeepsAllBeforeIt()
    {
        var posts = Posts(3, "3");
        var whole = Written(posts, out var path);
        var lastAt = SegmentContent.Read(whole).Records[^1].Offset;
        for (var length = lastAt; length < whole.Length; length++)
        {
            await File.WriteAllBytesAsync(path, whole[..length], Token);
            _events.Clear();

            Assert.Equal(posts[..2], await DrainAsync(new ScriptedSender(1, 0)));

            Assert.Equal(length > lastAt, _events.Any(one => one.Kind == OutboxEventKind.TailCut));
            Reset();
        }
    }

    [Fact]
    public async Task Open_AnyBitFlipped_SendsEveryOtherReadingAndKeepsTheDamagedBytes()
    {
        var posts = Posts(3, "3");
        var whole = Written(posts, out var path);
        var records = SegmentContent.Read(whole).Records;
        for (var at = 0; at < whole.Length; at++)
        {
            var damaged = (byte[])whole.Clone();
            damaged[at] ^= (byte)(1 << (at % 8));
            await File.WriteAllBytesAsync(path, damaged, Token);
            _events.Clear();
            var hit = records.ToList().FindLastIndex(one => one.Offset <= at);

            Assert.Equal(posts.Where((_, i) => i != hit), await DrainAsync(new ScriptedSender(1, 0)));

            Assert.Single(_events, one => one.Kind == OutboxEventKind.Quarantined);
            var kept = await File.ReadAllBytesAsync(Assert.Single(Directory.GetFiles(Path.Combine(Folder, "quarantine"))), Token);
            var end = hit + 1 < records.Count ? records[hit + 1].Offset : whole.Length;
            Assert.Equal(damaged[records[hit].Offset..end], kept);
            Reset();
        }
    }

    [Fact]
    public void Drain_SenderFailsAtRandom_StoresEachOnceAndEachLineInOrder() => Prop.ForAll(
        Gen.Choose(0, 100_000).ToArbitrary(),
        seed =>
        {
            Reset();
            var posts = Posts(12, "1").Zip(Posts(12, "2"), (a, b) => new[] { a, b }).SelectMany(pair => pair).ToList();
            var sender = new ScriptedSender(seed, 0.4);
            using (var outbox = Open())
            {
                outbox.Accept(posts[..15]);
                using var early = new CancellationTokenSource();
                early.CancelAfter(seed % 7);
                new OutboxPump(outbox, sender, Quick).RunAsync(Task.CompletedTask, early.Token).GetAwaiter().GetResult();
            }
            using (var outbox = Open())
            {
                outbox.Accept(posts[10..]);
                new OutboxPump(outbox, sender, Quick).RunAsync(Task.CompletedTask, Token).GetAwaiter().GetResult();
            }
            return sender.Stored.Count == posts.Count && new[] { "1", "2" }.All(line => Of(sender.Stored, line).SequenceEqual(Of(posts, line)));
        }).Check(Config.QuickThrowOnFailure.WithReplay(2026, 11).WithMaxTest(30));

    [Fact]
    public async Task Drain_ReadingRefused_KeepsItWithReasonsAndGoesOn()
    {
        var posts = Posts(3, "3");
        Written(posts, out _);
        var sender = new ScriptedSender(1, 0) { Refused = { posts[1].ReadingId } };

        Assert.Equal([posts[0], posts[2]], await DrainAsync(sender));
        var refused = Assert.Single(OutboxStatus.Read(Folder).Refused);
        Assert.Equal(posts[1], PostReadingRequest.Parser.ParseFrom(refused.Request.Span));
        Assert.Equal("scans: was missing.", refused.Reasons);

        sender.Refused.Clear();
        Assert.Equal(1, OutboxRetries.Request(Folder));
        Assert.Equal([posts[0], posts[2], posts[1]], await DrainAsync(sender));
        Assert.Empty(OutboxStatus.Read(Folder).Refused);
    }

    [Fact]
    public async Task Accept_AtTheLimit_AlarmsThenRefusesAndTakesAgainWhenEmptied()
    {
        var small = Quick with { LimitBytes = 64 * 1024 };
        using var outbox = ReadingOutbox.Open(Folder, small, _events.Add);
        var taken = 0;
        var fault = Assert.Throws<OutboxException>(() =>
        {
            foreach (var post in Posts(5000, "3"))
            {
                taken += outbox.Accept(post);
            }
        });

        Assert.True(fault.IsFull);
        Assert.Contains("full", fault.Message, StringComparison.Ordinal);
        Assert.Single(_events, one => one.Kind == OutboxEventKind.Alarm);
        Assert.NotEmpty(OutboxStatus.Read(Folder).Alarms);
        Assert.Equal(taken, OutboxStatus.Read(Folder).Waiting);
        Assert.True(OutboxStatus.Read(Folder).UsedBytes <= small.LimitBytes);

        await new OutboxPump(outbox, new ScriptedSender(1, 0), small).RunAsync(Task.CompletedTask, Token);

        Assert.Equal(1, outbox.Accept(Posts(5001, "3")[^1]));
        Assert.Contains(_events, one => one.Kind == OutboxEventKind.AlarmEnded);
    }

    [Fact]
    public void Accept_DiskNearlyFull_SaysSo()
    {
        using var outbox = ReadingOutbox.Open(Folder, new OutboxOptions { FreeBytes = _ => 1000, LeastFreeBytes = 2000 });

        Assert.Contains("disk", Assert.Throws<OutboxException>(() => outbox.Accept(Posts(1, "3"))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_Twice_TellsThatAnotherProcessPosts()
    {
        using var first = Open();

        Assert.Contains("another process", Assert.Throws<OutboxException>(Open).Message, StringComparison.Ordinal);
        Assert.True(OutboxStatus.Read(Folder).IsRunning);
    }

    private static List<PostReadingRequest> Of(IEnumerable<PostReadingRequest> posts, string line) =>
        [.. posts.Where(post => post.Measurement.Identification.Line == line)];

    private static List<PostReadingRequest> Posts(int count, string line) =>
    [
        .. Enumerable.Range(0, count).Select(i => new PostReadingRequest
        {
            ReadingId = string.Create(CultureInfo.InvariantCulture, $"line-{line}-{i}"),
            Measurement = new Measurement { Identification = new Identification { Line = line, Specimen = string.Create(CultureInfo.InvariantCulture, $"S-{i}") } },
        }),
    ];

    // The bytes of one segment with these posts.
    private byte[] Written(List<PostReadingRequest> posts, out string path)
    {
        using (var outbox = Open())
        {
            outbox.Accept(posts);
        }
        path = Assert.Single(Directory.GetFiles(Path.Combine(Folder, "segments"), "*.seg"));
        return File.ReadAllBytes(path);
    }

    private ReadingOutbox Open() => ReadingOutbox.Open(Folder, Quick, _events.Add);

    private void Reset()
    {
        if (Directory.Exists(Folder))
        {
            Directory.Delete(Folder, recursive: true);
        }
        Directory.CreateDirectory(Path.Combine(Folder, "segments"));
    }

    private async Task<List<PostReadingRequest>> DrainAsync(ScriptedSender sender)
    {
        using var outbox = Open();
        await new OutboxPump(outbox, sender, Quick).RunAsync(Task.CompletedTask, Token);
        return sender.Stored;
    }
}

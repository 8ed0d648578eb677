using System.Text.Json;

using ClearView.V1;

using Google.Protobuf;

namespace ClearView.Client.Outbox;

/// <summary>
/// Readings on their way to a server, on the disk of this machine. What <see cref="Accept"/> has taken is sent until the server has
/// stored it or refused it for good, whatever is switched off in between. Thread-safe; one process per folder.
/// </summary>
/// <remarks>docs/decisions/0009-outbox-segments.md gives the form of the files. Order is by number, never by clock.</remarks>
public sealed partial class ReadingOutbox : IDisposable
{
    private readonly object _gate = new();
    private readonly OutboxLayout _layout;
    private readonly OutboxOptions _options;
    private readonly Action<OutboxEvent> _report;
    private readonly TimeProvider _clock;
    private readonly FileStream _lock;
    private readonly List<OutboxSegment> _segments = [];
    private readonly Dictionary<string, Queue<OutboxEntry>> _lines = new(StringComparer.Ordinal);
    private readonly Dictionary<string, OutboxEntry> _byId = new(StringComparer.Ordinal);
    private TaskCompletionSource _changed = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private long _nextSequence;
    private long _usedBytes;
    private bool _alarm;

    private ReadingOutbox(OutboxLayout layout, OutboxOptions options, Action<OutboxEvent> report, TimeProvider clock, FileStream hold)
    {
        (_layout, _options, _clock, _lock) = (layout, options, clock, hold);
        _report = what =>
        {
            try
            {
                report(what);
            }
            catch (IOException)
            {
                // What cannot be told, since a full disk holds the log as well, is still sent.
            }
        };
    }

    /// <summary>Whether nothing waits.</summary>
    public bool IsEmpty
    {
        get
        {
            lock (_gate)
            {
                return _byId.Count == 0 && _lines.Values.All(line => line.Count == 0);
            }
        }
    }

    /// <summary>Opens an outbox, creates its folder where it is missing, and puts in order what a crash has left.</summary>
    /// <param name="folder">The folder, on a local disk.</param>
    /// <param name="options">Limits; <see langword="null"/> takes the defaults.</param>
    /// <param name="report">Told what happens, possibly from several threads; an IOException of it is passed over; <see langword="null"/> tells nobody.</param>
    /// <param name="clock">Says when a reading was accepted; <see langword="null"/> takes the system's.</param>
    /// <exception cref="OutboxException">Another process uses the folder, or it cannot be read and written.</exception>
    public static ReadingOutbox Open(string folder, OutboxOptions? options = null, Action<OutboxEvent>? report = null, TimeProvider? clock = null)
    {
        ArgumentException.ThrowIfNullOrEmpty(folder);
        options ??= new OutboxOptions();
        options.Validate();
        var layout = new OutboxLayout(Path.GetFullPath(folder));
        FileStream? hold = null;
        try
        {
            foreach (var one in new[] { layout.Folder, layout.Segments, layout.Refused, layout.Quarantine })
            {
                DurableFiles.CreateFolder(one, options.FlushFolder);
            }
            hold = OutboxLock.Take(layout);
            options.FlushFolder(layout.Folder);
            WriteLimits(layout, options);
            var outbox = new ReadingOutbox(layout, options, report ?? (static _ => { }), clock ?? TimeProvider.System, hold);
            outbox.Recover();
            return outbox;
        }
        catch (Exception e)
        {
            hold?.Dispose();
            if (e is IOException or UnauthorizedAccessException)
            {
                throw new OutboxException($"the outbox {layout.Folder} cannot be opened: {e.Message}", inner: e);
            }
            throw;
        }
    }

    /// <summary>Takes readings: when this returns, all of them are on durable storage and will be sent.</summary>
    /// <param name="requests">The readings, each with its identifier. One that waits already, with the same bytes, is not taken twice.</param>
    /// <returns>How many were taken anew.</returns>
    /// <exception cref="OutboxException">There is no room, or the disk does not take them; none of them was taken.</exception>
    public int Accept(params IReadOnlyList<PostReadingRequest> requests)
    {
        ArgumentNullException.ThrowIfNull(requests);
        List<OutboxEntry> taken = [];
        lock (_gate)
        {
            ObjectDisposedException.ThrowIf(!_lock.CanRead, this);
            var records = new List<(OutboxRecord Record, PostReadingRequest Request)>();
            var seen = new HashSet<(string, uint)>();
            foreach (var request in requests)
            {
                var record = new OutboxRecord(_nextSequence + records.Count, _clock.GetUtcNow().ToUnixTimeMilliseconds(), request.ToByteArray());
                if (record.Payload.Length > OutboxRecord.LargestPayload)
                {
                    throw new OutboxException($"the reading {request.ReadingId} is larger than any server takes");
                }
                if (!(_byId.TryGetValue(request.ReadingId, out var waiting) && waiting.Check == record.Check) && seen.Add((request.ReadingId, record.Check)))
                {
                    records.Add((record, request));
                }
            }
            if (records.Count == 0)
            {
                return 0;
            }
            var bytes = records.SelectMany(one => one.Record.ToBytes()).ToArray();
            try
            {
                MakeRoom(bytes.Length);
                _segments[^1].Append(bytes);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                throw new OutboxException($"the outbox {_layout.Folder} cannot be written: {e.Message}; nothing was taken", isFull: true, e);
            }
            var segment = _segments[^1];
            var offset = segment.Length - bytes.Length;
            foreach (var (record, request) in records)
            {
                var entry = OutboxEntry.Of(record, request, segment, offset);
                offset += record.Length;
                segment.Waiting++;
                Enqueue(entry);
                taken.Add(entry);
            }
            _nextSequence += records.Count;
            _usedBytes += bytes.Length;
            CheckAlarm();
        }
        foreach (var entry in taken)
        {
            _report(entry.Event(OutboxEventKind.Accepted, "on the disk, waits to be sent"));
        }
        Signal();
        return taken.Count;
    }

    /// <summary>Lets go of the folder. What waits is sent when it is opened again.</summary>
    public void Dispose()
    {
        lock (_gate)
        {
            _lock.Dispose();
        }
    }

    /// <summary>Lines on which something waits.</summary>
    internal IReadOnlyList<string> WaitingLines()
    {
        lock (_gate)
        {
            return [.. _lines.Where(line => line.Value.Count > 0).Select(line => line.Key)];
        }
    }

    /// <summary>Completes when something was taken since the last call.</summary>
    internal Task ChangedAsync()
    {
        lock (_gate)
        {
            if (_changed.Task.IsCompleted)
            {
                _changed = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            }
            return _changed.Task;
        }
    }

    /// <summary>The readings of a line that are to be sent next. Bytes that were damaged since they were taken are set aside.</summary>
    internal IReadOnlyList<(OutboxEntry Entry, PostReadingRequest Request)> Next(string line)
    {
        const int LargestBatchBytes = 8 * 1024 * 1024;
        lock (_gate)
        {
            List<(OutboxEntry, PostReadingRequest)> batch = [];
            var size = 0;
            foreach (var entry in _lines[line].Take(_options.BatchSize).ToList())
            {
                size += entry.Length;
                if (batch.Count > 0 && size > LargestBatchBytes)
                {
                    break;
                }
                var bytes = entry.Segment.Read(entry.Offset, entry.Length);
                if (OutboxRecord.Read(bytes) is { } record && record.Check == entry.Check && OutboxRecovery.Parse(record.Payload) is { } request)
                {
                    batch.Add((entry, request));
                }
                else if (batch.Count == 0)
                {
                    OutboxRecovery.SetAside(_layout, entry.Segment.Path, entry.Offset, bytes, _report);
                    Finish(line, [entry]);
                }
                else
                {
                    // The ones before it go first.
                    break;
                }
            }
            return batch;
        }
    }

    /// <summary>Records what came of sending; refused readings are kept with their reasons before they are done with.</summary>
    /// <returns>What is to be told.</returns>
    /// <remarks>Where the disk does not take it this throws, and all of them still wait: the same call may be made again.</remarks>
    internal IReadOnlyList<OutboxEvent> Complete(string line, IReadOnlyList<(OutboxEntry Entry, PostReadingRequest Request)> batch, IReadOnlyList<SendResult> results)
    {
        var done = batch.Zip(results).Where(one => one.Second.Kind != OutboxEventKind.Waiting).ToList();
        lock (_gate)
        {
            foreach (var ((entry, request), result) in done.Where(one => one.Second.Kind == OutboxEventKind.Refused))
            {
                var bytes = new RefusedReading(
                    entry.Sequence, entry.ReadingId, entry.Line, entry.Specimen, _clock.GetUtcNow(), result.Message, request.ToByteArray()).ToBytes();
                DurableFiles.Write(_layout.RefusedReading(entry.Sequence), bytes);
                _usedBytes += bytes.Length;
            }
            Finish(line, [.. done.Select(one => one.First.Entry)]);
            CheckAlarm();
        }
        return [.. done.Select(one => one.First.Entry.Event(one.Second.Kind, one.Second.Message, one.Second.Acknowledgement))];
    }

    /// <summary>Tells something about the sending.</summary>
    internal void Report(OutboxEvent what) => _report(what);

    /// <summary>Takes the refused readings again that somebody has asked for.</summary>
    /// <returns>Why one of them could not be taken, where its file was at fault: it stays asked for.</returns>
    internal Exception? TakeRetries()
    {
        Exception? fault = null;
        foreach (var path in OutboxLayout.Find(_layout.Refused, "*" + OutboxRetries.Extension))
        {
            try
            {
                var bytes = File.ReadAllBytes(path);
                if (RefusedReading.Parse(bytes) is { } refused && OutboxRecovery.Parse(refused.Request) is { } request)
                {
                    Accept(request);
                }
                else
                {
                    OutboxRecovery.SetAside(_layout, path, 0, bytes, _report);
                }
                File.Delete(path);
            }
            catch (OutboxException e) when (e.IsFull)
            {
                break;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                fault ??= e;
            }
        }
        return fault;
    }

    // They are for whoever asks how the outbox stands: on a full disk the ones before stand, and what waits can be sent.
    private static void WriteLimits(OutboxLayout layout, OutboxOptions options)
    {
        try
        {
            DurableFiles.Write(layout.Limits, JsonSerializer.SerializeToUtf8Bytes(new OutboxLimits(options.LimitBytes, options.LeastFreeBytes)));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
        }
    }

    private void Recover()
    {
        var left = OutboxRecovery.Run(_layout, _report);
        _segments.AddRange(left.Segments);
        _nextSequence = left.NextSequence;
        foreach (var entry in left.Waiting)
        {
            Enqueue(entry);
        }
        if (_segments.Count == 0 || !left.LastIsSound)
        {
            BeginSegmentOrLater();
        }
        RemoveFinished();
        _usedBytes = _layout.Measure();
        CheckAlarm();
    }

    private void Enqueue(OutboxEntry entry)
    {
        if (!_lines.TryGetValue(entry.Line, out var line))
        {
            _lines[entry.Line] = line = new Queue<OutboxEntry>();
        }
        line.Enqueue(entry);
        _byId[entry.ReadingId] = entry;
    }

    private void Finish(string line, IReadOnlyList<OutboxEntry> entries)
    {
        foreach (var group in entries.GroupBy(entry => entry.Segment))
        {
            var growth = AcknowledgementFile.Append(OutboxLayout.Acknowledgements(group.Key.Path), [.. group.Select(entry => (entry.Sequence, entry.Check))]);
            group.Key.AcknowledgedLength += growth;
            _usedBytes += growth;
        }
        foreach (var entry in entries)
        {
            if (_lines[line].Dequeue() != entry)
            {
                throw new InvalidOperationException("A reading was done with out of its order.");
            }
            entry.Segment.Waiting--;
            if (_byId.TryGetValue(entry.ReadingId, out var last) && last == entry)
            {
                _byId.Remove(entry.ReadingId);
            }
        }
        RemoveFinished();
    }

    private void Signal()
    {
        lock (_gate)
        {
            _changed.TrySetResult();
        }
    }
}

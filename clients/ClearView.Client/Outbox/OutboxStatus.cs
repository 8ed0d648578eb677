using System.Collections.Immutable;
using System.Text.Json;

namespace ClearView.Client.Outbox;

/// <summary>How an outbox stands. It is read without disturbing the process that posts from it.</summary>
/// <param name="Folder">The folder.</param>
/// <param name="IsRunning">Whether a process posts from it.</param>
/// <param name="Lines">What waits, by line.</param>
/// <param name="UsedBytes">What the folder holds, bytes.</param>
/// <param name="LimitBytes">What it may hold, bytes.</param>
/// <param name="FreeBytes">What is free on its disk, bytes.</param>
/// <param name="LeastFreeBytes">What has to stay free, bytes.</param>
/// <param name="Refused">Readings that the server refused for good, in the order of their numbers.</param>
/// <param name="Quarantined">Files of damaged bytes, in the order of their names.</param>
/// <param name="Alarms">What needs somebody, in words; empty where nothing does.</param>
public sealed record OutboxStatus(
    string Folder,
    bool IsRunning,
    ImmutableArray<OutboxLineStatus> Lines,
    long UsedBytes,
    long LimitBytes,
    long FreeBytes,
    long LeastFreeBytes,
    ImmutableArray<RefusedReading> Refused,
    ImmutableArray<string> Quarantined,
    ImmutableArray<string> Alarms)
{
    /// <summary>How many readings wait.</summary>
    public int Waiting => Lines.Sum(line => line.Waiting);

    /// <summary>Reads how an outbox stands.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="options">Limits where the folder names none; <see langword="null"/> takes the defaults.</param>
    /// <exception cref="OutboxException">There is no outbox, or it cannot be read.</exception>
    public static OutboxStatus Read(string folder, OutboxOptions? options = null)
    {
        options ??= new OutboxOptions();
        var layout = new OutboxLayout(Path.GetFullPath(folder));
        if (!Directory.Exists(layout.Segments))
        {
            throw new OutboxException($"there is no outbox in {layout.Folder}");
        }
        try
        {
            var limits = ReadLimits(layout) ?? new OutboxLimits(options.LimitBytes, options.LeastFreeBytes);
            ImmutableArray<string> quarantined = [.. OutboxLayout.Find(layout.Quarantine, "*.bin")];
            var (used, free) = (layout.Measure(), options.MeasureFreeBytes(layout.Folder));
            return new OutboxStatus(
                layout.Folder,
                OutboxLock.IsHeld(layout),
                ReadLines(layout),
                used,
                limits.LimitBytes,
                free,
                limits.LeastFreeBytes,
                [.. OutboxLayout.Find(layout.Refused, "*.json").Select(RefusedReading.Read).OfType<RefusedReading>()],
                quarantined,
                [.. FindAlarms(used, limits.LimitBytes, free, limits.LeastFreeBytes), .. FindDamage(quarantined)]);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new OutboxException($"the outbox {layout.Folder} cannot be read: {e.Message}", inner: e);
        }
    }

    /// <summary>Why there is an alarm: the folder holds 80 % of its limit, or the free space comes within a quarter of the least.</summary>
    internal static IReadOnlyList<string> FindAlarms(long usedBytes, long limitBytes, long freeBytes, long leastFreeBytes)
    {
        List<string> alarms = [];
        if (usedBytes >= OutboxOptions.AlarmShare * limitBytes)
        {
            alarms.Add($"the outbox holds {ByteText.Of(usedBytes)} of at most {ByteText.Of(limitBytes)}; at the limit no reading is taken");
        }
        if (freeBytes < leastFreeBytes * 1.25)
        {
            alarms.Add($"{ByteText.Of(freeBytes)} are free on the disk of the outbox; below {ByteText.Of(leastFreeBytes)} no reading is taken");
        }
        return alarms;
    }

    private static IEnumerable<string> FindDamage(ImmutableArray<string> quarantined) => quarantined.IsEmpty
        ? []
        : [$"damaged bytes were set aside, in {quarantined.Length} file{(quarantined.Length == 1 ? "" : "s")}: readings may be missing; post them again from where they came, then move the files away"];

    private static OutboxLimits? ReadLimits(OutboxLayout layout)
    {
        try
        {
            return JsonSerializer.Deserialize<OutboxLimits>(File.ReadAllBytes(layout.Limits));
        }
        catch (Exception e) when (e is FileNotFoundException or JsonException)
        {
            return null;
        }
    }

    private static ImmutableArray<OutboxLineStatus> ReadLines(OutboxLayout layout)
    {
        var waiting = new List<(string Line, OutboxRecord Record)>();
        foreach (var path in layout.FindSegments())
        {
            // Read before the records: what is done with in between counts as waiting, never the other way round.
            var done = AcknowledgementFile.Read(OutboxLayout.Acknowledgements(path));
            foreach (var (_, record) in SegmentContent.Read(ReadShared(path)).Records.Where(one => !done.Contains((one.Record.Sequence, one.Record.Check))))
            {
                waiting.Add((OutboxRecovery.Parse(record.Payload)?.Measurement?.Identification?.Line ?? "", record));
            }
        }
        return
        [
            .. waiting.GroupBy(one => one.Line, StringComparer.Ordinal)
                .Select(line => new OutboxLineStatus(line.Key, line.Count(), DateTimeOffset.FromUnixTimeMilliseconds(line.MinBy(one => one.Record.Sequence).Record.AcceptedMs)))
                .OrderBy(line => line.Line, StringComparer.Ordinal),
        ];
    }

    private static byte[] ReadShared(string path)
    {
        try
        {
            using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite | FileShare.Delete);
            var bytes = new byte[file.Length];
            return bytes[..file.ReadAtLeast(bytes, bytes.Length, throwOnEndOfStream: false)];
        }
        catch (FileNotFoundException)
        {
            // Finished and removed since the folder was listed.
            return [];
        }
    }
}

namespace ClearView.Client.Outbox;

/// <summary>How much an outbox may hold, and how patient its sending is.</summary>
public sealed record OutboxOptions
{
    /// <summary>Share of <see cref="LimitBytes"/> from which on the alarm is raised.</summary>
    public const double AlarmShare = 0.8;

    /// <summary>What the folder may hold, bytes; at least 64 KB; 2 GB.</summary>
    public long LimitBytes { get; init; } = 2_000_000_000;

    /// <summary>Free space of the disk below which nothing more is taken, bytes; 0 or more; 256 MB.</summary>
    public long LeastFreeBytes { get; init; } = 256_000_000;

    /// <summary>Size from which on a new segment is begun, bytes; above 0; 4 MB. Never more than an eighth of the limit.</summary>
    public long SegmentBytes { get; init; } = 4L * 1024 * 1024;

    /// <summary>Readings of one line that are handed to the sender together. 1 to 1000; 256.</summary>
    public int BatchSize { get; init; } = 256;

    /// <summary>Pause after the first failure, of which a random half to whole is taken; it doubles. Above 0; 0.5 s.</summary>
    public TimeSpan InitialBackoff { get; init; } = TimeSpan.FromMilliseconds(500);

    /// <summary>Longest pause between attempts. Above 0; 30 s.</summary>
    public TimeSpan MaxBackoff { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>Free space of the disk that holds a folder, bytes; <see langword="null"/> asks the system.</summary>
    public Func<string, long>? FreeBytes { get; init; }

    /// <summary>Makes the names in a folder durable.</summary>
    internal Action<string> FlushFolder { get; init; } = DurableFiles.FlushFolder;

    internal long LargestSegmentBytes => Math.Min(SegmentBytes, LimitBytes / 8);

    internal void Validate()
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(LimitBytes, 64 * 1024);
        ArgumentOutOfRangeException.ThrowIfNegative(LeastFreeBytes);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(SegmentBytes, 0);
        ArgumentOutOfRangeException.ThrowIfLessThan(BatchSize, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(BatchSize, 1000);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(InitialBackoff, TimeSpan.Zero);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(MaxBackoff, TimeSpan.Zero);
    }

    internal long MeasureFreeBytes(string folder) => FreeBytes?.Invoke(folder) ?? new DriveInfo(Path.GetFullPath(folder)).AvailableFreeSpace;
}

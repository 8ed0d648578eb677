using ClearView.Client.Files;

namespace ClearView.Client.Outbox;

/// <summary>Finds scan files that are new in a folder and have stopped growing.</summary>
/// <param name="folder">The folder, with those below.</param>
/// <param name="settleTime">How long length and time of a file stay the same before it counts as whole.</param>
/// <param name="clock">Measures that time, whatever is done to the time of day.</param>
public sealed class FollowedFolder(string folder, TimeSpan settleTime, TimeProvider clock)
{
    private readonly Dictionary<string, (long Length, DateTime Written, long SeenAt)> _seen = new(StringComparer.Ordinal);

    /// <summary>The files that are whole now, in ordinal order of their paths, as they were seen.</summary>
    /// <param name="isKnown">Whether a file is done with as it is.</param>
    /// <exception cref="ScanFileException">The folder cannot be read.</exception>
    public IReadOnlyList<FileInfo> FindWhole(Func<FileInfo, bool> isKnown)
    {
        ArgumentNullException.ThrowIfNull(isKnown);
        List<FileInfo> whole = [];
        foreach (var path in ScanFolder.FindNow(folder))
        {
            var file = new FileInfo(path);
            if (!file.Exists || file.Length == 0 || isKnown(file))
            {
                _seen.Remove(path);
                continue;
            }
            if (!_seen.TryGetValue(path, out var seen) || seen.Length != file.Length || seen.Written != file.LastWriteTimeUtc)
            {
                _seen[path] = (file.Length, file.LastWriteTimeUtc, clock.GetTimestamp());
            }
            else if (clock.GetElapsedTime(seen.SeenAt) >= settleTime)
            {
                whole.Add(file);
            }
        }
        return whole;
    }
}

using ClearView.Client.Files;
using ClearView.Client.Outbox;
using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Commands.Outboxes;

/// <summary>Takes the new scan files of a folder into an outbox, poll by poll.</summary>
/// <remarks>Only what a file says is held against it until it changes. What cannot be opened, written or moved is told once and tried again.</remarks>
/// <param name="followed">Finds the files.</param>
/// <param name="taken">Remembers which were taken.</param>
/// <param name="done">Where taken files are moved; <see langword="null"/> leaves them.</param>
/// <param name="read">Reads a file; a <see cref="ScanFileException"/> says what is wrong with it.</param>
/// <param name="accept">Takes readings durably, and waits until there is room.</param>
/// <param name="screen">Shows what goes wrong.</param>
internal sealed class FolderFollower(
    FollowedFolder followed, TakenFiles taken, string? done,
    Func<string, IReadOnlyList<PostReadingRequest>> read, Func<IReadOnlyList<PostReadingRequest>, Task> accept, OutboxScreen screen)
{
    private readonly Dictionary<string, (long Length, DateTime Written)> _unreadable = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (long Length, DateTime Written)> _accepted = new(StringComparer.Ordinal);
    private readonly HashSet<string> _told = new(StringComparer.Ordinal);

    /// <summary>Takes the files that are whole now.</summary>
    public async Task PollAsync()
    {
        List<FileInfo> left = [];
        IReadOnlyList<FileInfo> whole = [];
        if (!Try("", "the followed folder cannot be read", () => whole = followed.FindWhole(file => IsDoneWith(file, left))))
        {
            return;
        }
        foreach (var file in whole)
        {
            if (await AcceptAsync(file) && Try(file.FullName, $"{file.FullName} cannot be noted as taken", () => taken.Add(file)))
            {
                _accepted.Remove(file.FullName);
                MoveAway(file);
            }
        }
        // Taken before a stop that came before they were moved, or not to be moved until now, or copied back as they were.
        foreach (var file in left)
        {
            MoveAway(file);
        }
        _told.RemoveWhere(path => path.Length > 0 && !File.Exists(path));
    }

    private static (long Length, DateTime Written) StateOf(FileInfo file) => (file.Length, file.LastWriteTimeUtc);

    // What was found keeps length and time of then; a file that differs since is read as another one at a later poll.
    private static bool IsAsFound(FileInfo file) => new FileInfo(file.FullName) is { Exists: true } now && StateOf(now) == StateOf(file);

    private bool IsDoneWith(FileInfo file, List<FileInfo> left)
    {
        if (taken.Contains(file))
        {
            left.Add(file);
            return true;
        }
        return _unreadable.TryGetValue(file.FullName, out var known) && known == StateOf(file);
    }

    // Whether the readings of a file, as it was found, are in the outbox.
    private async Task<bool> AcceptAsync(FileInfo file)
    {
        if (_accepted.TryGetValue(file.FullName, out var accepted) && accepted == StateOf(file))
        {
            return true;
        }
        // Others may have waited for room since it was found.
        if (!IsAsFound(file))
        {
            return false;
        }
        IReadOnlyList<PostReadingRequest> requests;
        try
        {
            requests = read(file.FullName);
        }
        catch (ScanFileException e) when (e.InnerException is IOException or UnauthorizedAccessException)
        {
            Tell(file.FullName, e.Message);
            return false;
        }
        catch (ScanFileException e)
        {
            if (IsAsFound(file))
            {
                _unreadable[file.FullName] = StateOf(file);
                screen.Fault($"{e.Message}; the file is left aside until it changes");
            }
            return false;
        }
        _told.Remove(file.FullName);
        if (!IsAsFound(file))
        {
            return false;
        }
        await accept(requests);
        _accepted[file.FullName] = StateOf(file);
        return true;
    }

    private void MoveAway(FileInfo file)
    {
        if (done is not null)
        {
            Try(file.FullName, $"{file.FullName} cannot be moved to {done}", () => Move(file, done));
        }
    }

    // A file of that name may lie there from another day; neither is overwritten. One that was replaced since it was read stays.
    private static void Move(FileInfo file, string folder)
    {
        if (!IsAsFound(file))
        {
            return;
        }
        Directory.CreateDirectory(folder);
        var target = Path.Combine(folder, file.Name);
        for (var i = 2; File.Exists(target); i++)
        {
            target = Path.Combine(folder, $"{Path.GetFileNameWithoutExtension(file.Name)}-{NumberText.Plain(i)}{file.Extension}");
        }
        File.Move(file.FullName, target);
    }

    private bool Try(string place, string what, Action work)
    {
        try
        {
            work();
            _told.Remove(place);
            return true;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ScanFileException)
        {
            Tell(place, $"{what}: {e.Message}");
            return false;
        }
    }

    private void Tell(string place, string message)
    {
        if (_told.Add(place))
        {
            screen.Trouble($"{message.TrimEnd('.')}; it is tried again until it succeeds");
        }
    }
}

namespace ClearView.Client.Outbox;

/// <summary>One process per outbox: a file that is held open. The system lets go of it when the process ends, however it ends.</summary>
internal static class OutboxLock
{
    // Asking for the status takes the lock for a moment.
    private const int Attempts = 10;
    private static readonly TimeSpan Pause = TimeSpan.FromMilliseconds(50);

    /// <summary>Takes the lock.</summary>
    /// <exception cref="OutboxException">Another process has it.</exception>
    public static FileStream Take(OutboxLayout layout)
    {
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return Open(layout);
            }
            catch (IOException e) when (e is not (DirectoryNotFoundException or PathTooLongException))
            {
                if (attempt == Attempts)
                {
                    throw new OutboxException(
                        $"another process posts from the outbox {layout.Folder}; stop that one, or give this one a folder of its own with --outbox", inner: e);
                }
                Thread.Sleep(Pause);
            }
        }
    }

    /// <summary>Whether a process has it.</summary>
    public static bool IsHeld(OutboxLayout layout)
    {
        if (!File.Exists(layout.Lock))
        {
            return false;
        }
        try
        {
            using (Open(layout))
            {
                return false;
            }
        }
        catch (IOException)
        {
            return true;
        }
    }

    private static FileStream Open(OutboxLayout layout) => new(layout.Lock, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
}

using System.Runtime.InteropServices;

namespace ClearView.Client.Outbox;

/// <summary>Makes names of files durable, as flushing makes their bytes.</summary>
public static class DurableFiles
{
    /// <summary>Makes what was created, renamed and removed in a folder durable. Windows keeps its directory in a journal.</summary>
    /// <param name="folder">The folder.</param>
    /// <exception cref="IOException">It cannot be flushed.</exception>
    public static void FlushFolder(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            return;
        }
        // O_RDONLY is 0 on every system that has it.
        var descriptor = NativeMethods.Open(folder, 0);
        if (descriptor < 0)
        {
            throw new IOException($"the folder {folder} cannot be opened to be flushed (error {Marshal.GetLastPInvokeError()})");
        }
        try
        {
            if (NativeMethods.Flush(descriptor) != 0)
            {
                throw new IOException($"the folder {folder} cannot be flushed to the disk (error {Marshal.GetLastPInvokeError()})");
            }
        }
        finally
        {
            _ = NativeMethods.Close(descriptor);
        }
    }

    /// <summary>Writes a file so that after a crash the whole of it is there, or nothing of it: then the one before stands.</summary>
    /// <param name="path">The file, with its folder.</param>
    /// <param name="bytes">What it holds.</param>
    /// <exception cref="IOException">It cannot be written.</exception>
    public static void Write(string path, ReadOnlySpan<byte> bytes)
    {
        var draft = path + ".tmp";
        try
        {
            using (var file = new FileStream(draft, FileMode.Create, FileAccess.Write, FileShare.None))
            {
                file.Write(bytes);
                file.Flush(flushToDisk: true);
            }
            File.Move(draft, path, overwrite: true);
        }
        catch (IOException)
        {
            // What a full disk took of it would only take room.
            RemoveDraft(draft);
            throw;
        }
        FlushFolder(Path.GetDirectoryName(path)!);
    }

    /// <summary>Creates a folder, and those above it that are missing, so that all of them are there after a crash.</summary>
    internal static void CreateFolder(string folder, Action<string> flush)
    {
        var missing = new Stack<string>();
        for (var at = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder)); at is not null && !Directory.Exists(at); at = Path.GetDirectoryName(at))
        {
            missing.Push(at);
        }
        Directory.CreateDirectory(folder);
        foreach (var created in missing)
        {
            flush(Path.GetDirectoryName(created)!);
        }
    }

    private static void RemoveDraft(string draft)
    {
        try
        {
            File.Delete(draft);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
        }
    }

    private static class NativeMethods
    {
#pragma warning disable SYSLIB1054, CA2101 // Source-generated marshalling would need unsafe code; the path is marshalled as UTF-8.
        [DllImport("libc", EntryPoint = "open", SetLastError = true)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        public static extern int Open([MarshalAs(UnmanagedType.LPUTF8Str)] string path, int flags);
#pragma warning restore SYSLIB1054, CA2101

#pragma warning disable SYSLIB1054 // Source-generated marshalling would need unsafe code.
        [DllImport("libc", EntryPoint = "fsync", SetLastError = true)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        public static extern int Flush(int descriptor);

        [DllImport("libc", EntryPoint = "close", SetLastError = true)]
        [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
        public static extern int Close(int descriptor);
#pragma warning restore SYSLIB1054
    }
}

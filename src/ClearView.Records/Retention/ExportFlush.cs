using System.Runtime.InteropServices;

namespace ClearView.Records.Retention;

/// <summary>Brings an export to the disk, before what it holds leaves the store.</summary>
internal static class ExportFlush
{
    /// <summary>Makes the bytes of a closed file durable.</summary>
    /// <param name="path">The file.</param>
    /// <exception cref="IOException">It cannot be flushed.</exception>
    public static void File(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite, FileShare.Read);
        file.Flush(flushToDisk: true);
    }

    /// <summary>Makes the names of the files in a folder durable. Windows keeps its directory in a journal.</summary>
    /// <param name="folder">The folder.</param>
    /// <exception cref="IOException">It cannot be flushed.</exception>
    public static void Folder(string folder)
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

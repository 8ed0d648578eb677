using System.Collections.Frozen;
using System.Reflection;
using System.Text;

namespace ClearView.Plotting.Theme;

/// <summary>The font files inside the font package's assembly.</summary>
/// <remarks>
/// The assembly's one resource begins with the length of its index (int32); the index holds a version and a count
/// (int32 each) and, for each file, its path (length-prefixed UTF-8), offset and size (int32 each); offsets count from
/// the end of the index.
/// </remarks>
internal sealed class FontArchive
{
    private const string ArchiveName = "ChartFont";
    private const string ResourceName = "!AvaloniaResources";
    private const int KnownVersion = 2;

    private readonly byte[] _content;
    private readonly FrozenDictionary<string, Range> _files;

    private FontArchive(byte[] content, FrozenDictionary<string, Range> files)
    {
        _content = content;
        _files = files;
    }

    public static FontArchive Open(Assembly program)
    {
        // Loaded for its resource only: nothing of it runs, and what it refers to is never resolved.
        var package = Assembly.Load(ReadAll(program, ArchiveName));
        byte[] content = ReadAll(package, ResourceName);

        using var reader = new BinaryReader(new MemoryStream(content), Encoding.UTF8);
        int start = reader.ReadInt32() + sizeof(int);
        int version = reader.ReadInt32();
        if (version != KnownVersion)
        {
            throw new InvalidDataException($"The index of the font package has version {version}; {KnownVersion} is known.");
        }

        int count = reader.ReadInt32();
        var files = new Dictionary<string, Range>(count, StringComparer.Ordinal);
        for (int index = 0; index < count; index++)
        {
            string path = reader.ReadString();
            int from = start + reader.ReadInt32();
            files.Add(path, from..(from + reader.ReadInt32()));
        }

        return new FontArchive(content, files.ToFrozenDictionary(StringComparer.Ordinal));
    }

    public ReadOnlySpan<byte> Read(string path) => _content.AsSpan(_files[path]);

    private static byte[] ReadAll(Assembly assembly, string resource)
    {
        using Stream stream = assembly.GetManifestResourceStream(resource)
            ?? throw new InvalidDataException($"The resource {resource} is missing from {assembly.GetName().Name}.");
        byte[] content = new byte[stream.Length];
        stream.ReadExactly(content);
        return content;
    }
}

namespace ClearView.Client.Files.Parsing;

/// <summary>What the file and the options say beside the numbers, by key.</summary>
/// <param name="path">The file, for messages.</param>
/// <param name="options">Options, which fill in or override.</param>
internal sealed class Metadata(string path, ScanFileOptions options)
{
    private readonly Dictionary<string, MetadataEntry> _entries = new(StringComparer.Ordinal);

    /// <summary>The file, for messages.</summary>
    public string Path => path;

    /// <summary>What the file alone says under a key.</summary>
    public MetadataEntry? InFile(string key) => _entries.GetValueOrDefault(key);

    /// <summary>What holds under a key: the override, else the file, else the default; <see langword="null"/> where none says.</summary>
    public MetadataEntry? Get(string key)
    {
        if (options.Overrides.TryGetValue(key, out var forced) && !string.IsNullOrWhiteSpace(forced))
        {
            return new MetadataEntry(forced.Trim(), null, null);
        }
        if (_entries.TryGetValue(key, out var entry))
        {
            return entry;
        }
        return options.Defaults.TryGetValue(key, out var value) && !string.IsNullOrWhiteSpace(value)
            ? new MetadataEntry(value.Trim(), null, null)
            : null;
    }

    /// <summary>Adds what the file says; an empty value says nothing.</summary>
    /// <exception cref="ScanFileException">The file gives the key twice.</exception>
    public void Add(string key, string value, int line, int? column)
    {
        if (value.Length == 0)
        {
            return;
        }
        if (!_entries.TryAdd(key, new MetadataEntry(value, line, column)))
        {
            throw new ScanFileException(path, line, column, $"{key} is given a second time (first on line {_entries[key].Line})", "each key once");
        }
    }

    /// <summary>A copy to which a row may add its own values, which win over those of the file.</summary>
    public Metadata ForRow(IEnumerable<(string Key, MetadataEntry Entry)> own)
    {
        var copy = new Metadata(path, options);
        foreach (var (key, entry) in _entries)
        {
            copy._entries[key] = entry;
        }
        foreach (var (key, entry) in own)
        {
            copy._entries[key] = entry;
        }
        return copy;
    }
}

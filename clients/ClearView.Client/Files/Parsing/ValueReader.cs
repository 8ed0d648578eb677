namespace ClearView.Client.Files.Parsing;

/// <summary>Reads the values of keys as text, number or word.</summary>
/// <param name="metadata">Keys and values.</param>
internal sealed class ValueReader(Metadata metadata)
{
    /// <summary>The text under a key; empty where nothing gives it.</summary>
    public string Text(string key) => metadata.Get(key)?.Value ?? "";

    /// <summary>The number under a key, in the unit that the key names; <see langword="null"/> where nothing gives it.</summary>
    /// <exception cref="ScanFileException">It is no number.</exception>
    /// <remarks>Either decimal mark will do: a key has no separator that it could be mistaken for.</remarks>
    public double? Number(string key) => metadata.Get(key) is { } entry
        ? new NumberFormat(metadata.Path, ';', null).Read(entry.Value, entry.Line, entry.Column, key)
        : null;

    /// <summary>The count under a key; <see langword="null"/> where nothing gives it.</summary>
    /// <exception cref="ScanFileException">It is no whole number from 0 to 4294967295.</exception>
    public uint? Count(string key)
    {
        if (Number(key) is not { } number || metadata.Get(key) is not { } entry)
        {
            return null;
        }
        return number is >= 0 and <= uint.MaxValue && number == Math.Floor(number)
            ? (uint)number
            : throw new ScanFileException(metadata.Path, entry.Line, entry.Column, $"{key} is \"{entry.Value}\"", "a whole number, 0 or more");
    }

    /// <summary>The word under a key, which must be there.</summary>
    /// <exception cref="ScanFileException">It is none of the words that the key knows.</exception>
    public T Word<T>(string key, IReadOnlyDictionary<string, T> words)
    {
        var entry = metadata.Get(key) ?? throw new InvalidOperationException($"{key} was not checked to be there.");
        return words.TryGetValue(entry.Value, out var value)
            ? value
            : throw new ScanFileException(metadata.Path, entry.Line, entry.Column, $"{key} is \"{entry.Value}\"", $"one of {string.Join(", ", words.Keys)}");
    }
}

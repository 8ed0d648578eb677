namespace ClearView.Client.Files;

/// <summary>What the person who reads a table of values knows and the file does not say.</summary>
public sealed record ValueTableOptions
{
    /// <summary>No help at all: the file says everything.</summary>
    public static ValueTableOptions None { get; } = new();

    /// <summary>Separator of cells: comma, semicolon or tab; <see langword="null"/> takes the one that makes a header row.</summary>
    public char? Separator { get; init; }

    /// <summary>Decimal mark: point or comma; <see langword="null"/> takes the first one that the file uses, and holds the file to it.</summary>
    public char? DecimalMark { get; init; }
}

namespace ClearView.Client.Files.Parsing;

/// <summary>A column's header, understood.</summary>
/// <param name="Column">Column, from 1.</param>
/// <param name="Text">The header as it stands.</param>
/// <param name="Quantity">What the column holds; <see langword="null"/> where it is a key or unknown.</param>
/// <param name="Specimen">Specimen named before the quantity in the wide form; otherwise <see langword="null"/>.</param>
/// <param name="Unit">Unit in the header, as "percent", "fraction", "nm" or as it stands; <see langword="null"/> where there is none.</param>
/// <param name="Key">Key of <see cref="ScanFileKeys"/> that the column gives per row; otherwise <see langword="null"/>.</param>
internal sealed record Heading(int Column, string Text, Quantity? Quantity, string? Specimen, string? Unit, string? Key)
{
    /// <summary>Whether the reader can make anything of the column.</summary>
    public bool IsKnown => Quantity is not null || Key is not null;
}

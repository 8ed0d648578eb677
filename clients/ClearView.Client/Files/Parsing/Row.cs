namespace ClearView.Client.Files.Parsing;

/// <summary>One row of cells.</summary>
/// <param name="Line">Line of the file, from 1.</param>
/// <param name="Cells">The cells, trimmed, without empty ones at the end.</param>
internal sealed record Row(int Line, string[] Cells);

namespace ClearView.Client.Files.Parsing;

/// <summary>A file, split up: header, rows below it, and what was said beside them.</summary>
/// <param name="Path">The file, for messages.</param>
/// <param name="Separator">Separator of cells.</param>
/// <param name="HeaderLine">Line of the header row, from 1.</param>
/// <param name="Headings">The header's cells, understood.</param>
/// <param name="Rows">Rows below the header, each as wide as the header.</param>
/// <param name="Metadata">Keys and values.</param>
/// <param name="Notes">What was left aside.</param>
internal sealed record Sheet(
    string Path,
    char Separator,
    int HeaderLine,
    IReadOnlyList<Heading> Headings,
    IReadOnlyList<Row> Rows,
    Metadata Metadata,
    IReadOnlyList<string> Notes);

namespace ClearView.Client.Files.Parsing;

/// <summary>A value under a key of <see cref="ScanFileKeys"/>, and where it stands.</summary>
/// <param name="Value">The value, trimmed; never empty.</param>
/// <param name="Line">Line from 1; <see langword="null"/> where an option gives it.</param>
/// <param name="Column">Column from 1; <see langword="null"/> where it has none.</param>
internal sealed record MetadataEntry(string Value, int? Line, int? Column);

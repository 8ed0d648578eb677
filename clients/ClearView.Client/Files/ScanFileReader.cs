using ClearView.Client.Files.Parsing;

namespace ClearView.Client.Files;

/// <summary>Reads scan files into measurements for the wire.</summary>
/// <remarks>
/// <para>Forms: wavelengths with total and diffuse transmittance, wavelengths with T1 to T4, both for one specimen or, in the
/// wide form, for several; hazemeter readings T1 to T4, one row per specimen. docs/files.md describes them.</para>
/// <para>Units, specimen and conditions come from the file or from the options and are never guessed. Thread-safe, stateless,
/// and the same under every culture.</para>
/// </remarks>
public static class ScanFileReader
{
    /// <summary>Reads one file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="options">What the file does not say.</param>
    /// <returns>The specimens, in the order in which they stand in the file; never empty.</returns>
    /// <exception cref="ScanFileException">The file cannot be read as it stands.</exception>
    public static IReadOnlyList<ScannedSpecimen> Read(string path, ScanFileOptions options)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(options);
        try
        {
            using var stream = File.OpenRead(path);
            return Read(stream, path, options);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new ScanFileException(path, null, null, e.Message.TrimEnd('.'), "a file that can be read", e);
        }
    }

    /// <summary>Reads one file from a stream.</summary>
    /// <param name="stream">The bytes of the file; read to the end, at most 64 MB, and left open.</param>
    /// <param name="name">What messages call the file.</param>
    /// <param name="options">What the file does not say.</param>
    /// <returns>The specimens, in the order in which they stand in the file; never empty.</returns>
    /// <exception cref="ScanFileException">The file cannot be read as it stands.</exception>
    public static IReadOnlyList<ScannedSpecimen> Read(Stream stream, string name, ScanFileOptions options)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentException.ThrowIfNullOrEmpty(name);
        ArgumentNullException.ThrowIfNull(options);
        var sheet = SheetReader.Read(FileText.ReadLines(stream, name), name, options);
        return sheet.Headings.Any(heading => heading.Quantity == Quantity.Wavelength)
            ? SpectralReader.Read(sheet, options)
            : HazemeterReader.Read(sheet, options);
    }
}

using System.Collections.Immutable;

using ClearView.Client.Files;

namespace ClearView.Console.Options;

/// <summary>A table of wavelengths and one quantity: the spectral power of a lamp, a refractive index.</summary>
/// <param name="WavelengthsNm">Wavelengths, nm, strictly ascending.</param>
/// <param name="Values">One per wavelength.</param>
internal sealed record TwoColumnFile(ImmutableArray<double> WavelengthsNm, ImmutableArray<double> Values)
{
    private const long LargestFileBytes = 1024 * 1024;

    /// <summary>Reads a file of two columns, separated by comma, semicolon or tab; one heading row and rows after "#" are passed over.</summary>
    /// <param name="path">The file.</param>
    /// <param name="quantity">What the second column is, for messages.</param>
    /// <exception cref="ScanFileException">It cannot be read; the message names line and what was expected.</exception>
    public static TwoColumnFile Read(string path, string quantity)
    {
        var expected = $"two columns: wavelength in nm, {quantity}";
        var wavelengths = ImmutableArray.CreateBuilder<double>();
        var values = ImmutableArray.CreateBuilder<double>();
        var lines = Lines(path, expected);
        var headingMayCome = true;
        for (var i = 0; i < lines.Length; i++)
        {
            if (string.IsNullOrWhiteSpace(lines[i]) || lines[i].StartsWith('#'))
            {
                continue;
            }
            var cells = lines[i].Split([',', ';', '\t']);
            if (cells.Length == 2 && Numerals.Read(cells[0]) is { } wavelength && Numerals.Read(cells[1]) is { } value)
            {
                if (wavelengths.Count > 0 && wavelength <= wavelengths[^1])
                {
                    throw new ScanFileException(path, i + 1, 1, $"wavelength {cells[0].Trim()} nm after {wavelengths[^1]} nm", "ascending wavelengths");
                }
                wavelengths.Add(wavelength);
                values.Add(value);
            }
            else if (!headingMayCome || cells.Length != 2)
            {
                throw new ScanFileException(path, i + 1, null, $"\"{lines[i].Trim()}\"", expected);
            }
            headingMayCome = false;
        }
        return wavelengths.Count >= 2
            ? new TwoColumnFile(wavelengths.ToImmutable(), values.ToImmutable())
            : throw new ScanFileException(path, null, null, "the file holds fewer than two rows of numbers", expected);
    }

    private static string[] Lines(string path, string expected)
    {
        try
        {
            var file = new FileInfo(path);
            if (!file.Exists)
            {
                throw new ScanFileException(path, null, null, "no such file", expected);
            }
            return file.Length <= LargestFileBytes
                ? File.ReadAllLines(path)
                : throw new ScanFileException(path, null, null, "the file is larger than 1 MB", expected);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new ScanFileException(path, null, null, e.Message.TrimEnd('.'), "a file that may be read", e);
        }
    }
}

using System.Globalization;

namespace ClearView.Optics.Tests.Reference;

/// <summary>A table of the Debian package colord-data: CGATS text with the wavelengths in its head and one row per function.</summary>
internal sealed class ColordTable
{
    private const string Folder = "/usr/share/colord";

    private ColordTable(decimal[] wavelengthsNm, decimal[][] rows)
    {
        WavelengthsNm = wavelengthsNm;
        Rows = rows;
    }

    /// <summary>The wavelengths, nm.</summary>
    public decimal[] WavelengthsNm { get; }

    /// <summary>One row per function, one value per wavelength: decimal, so that printed figures compare exactly.</summary>
    public decimal[][] Rows { get; }

    /// <summary>Reads a table; the test fails where the package is missing.</summary>
    /// <param name="name">For example "illuminant/CIE-A.sp".</param>
    public static ColordTable Read(string name)
    {
        string path = Path.Combine(Folder, name);
        Assert.True(File.Exists(path), $"{path} is missing; `bash tests/run` installs the package colord-data.");
        string[] lines = File.ReadAllLines(path);
        decimal first = Head(lines, "SPECTRAL_START_NM");
        decimal last = Head(lines, "SPECTRAL_END_NM");
        int bands = (int)Head(lines, "SPECTRAL_BANDS");
        decimal[] wavelengths = [.. Enumerable.Range(0, bands).Select(i => first + ((last - first) * i / (bands - 1)))];
        decimal[][] rows =
        [
            .. lines.SkipWhile(line => line != "BEGIN_DATA").Skip(1).TakeWhile(line => line != "END_DATA")
                .Select(line => line.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
                .Select(cells => cells.Select(Number).ToArray()),
        ];
        Assert.All(rows, row => Assert.Equal(bands, row.Length));
        return new ColordTable(wavelengths, rows);
    }

    private static decimal Head(string[] lines, string key) =>
        Number(lines.Single(line => line.StartsWith(key, StringComparison.Ordinal)).Split('\t', ' ')[^1]);

    private static decimal Number(string cell) => decimal.Parse(cell, NumberStyles.Float, CultureInfo.InvariantCulture);
}

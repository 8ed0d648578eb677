using System.Globalization;
using System.Reflection;

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Colorimetry;

/// <summary>The CIE tables that travel with this assembly; <c>Data/README.md</c> names the source of each.</summary>
public static class CieTables
{
    /// <summary>Names the tables that results were computed with.</summary>
    public const string VersionId = "CIE 15 tables at 5 nm, transcribed 2026-11-25";

    /// <summary>1 nm from 360 to 830, on which the observers stand.</summary>
    internal static WavelengthGrid ObserverGrid { get; } = WavelengthGrid.Between(360, 830, 1);

    /// <summary>Reads an embedded table: one spectrum per column behind the wavelength.</summary>
    internal static Spectrum[] Read(string fileName)
    {
        using Stream stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(fileName)
            ?? throw new InvalidOperationException($"The table {fileName} is missing from the assembly.");
        using var reader = new StreamReader(stream);
        var rows = new List<double[]>();
        bool headerSeen = false;
        while (reader.ReadLine() is { } line)
        {
            if (line.StartsWith('#') || line.Length == 0)
            {
                continue;
            }

            if (headerSeen)
            {
                rows.Add(Array.ConvertAll(line.Split(','), cell => double.Parse(cell, CultureInfo.InvariantCulture)));
            }

            headerSeen = true;
        }

        WavelengthGrid grid = WavelengthGrid.FromWavelengths(rows.Select(row => row[0]).ToArray());
        return [.. Enumerable.Range(1, rows[0].Length - 1)
            .Select(column => new Spectrum(grid, rows.Select(row => row[column]).ToArray()))];
    }
}

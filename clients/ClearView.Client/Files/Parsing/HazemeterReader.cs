using ClearView.V1;

namespace ClearView.Client.Files.Parsing;

/// <summary>Reads a file of hazemeter readings: T1 to T4 without wavelength, one row per specimen, keys as columns.</summary>
internal static class HazemeterReader
{
    /// <summary>The specimens of the file, in the order of their rows.</summary>
    /// <exception cref="ScanFileException">Something does not fit.</exception>
    public static IReadOnlyList<ScannedSpecimen> Read(Sheet sheet, ScanFileOptions options)
    {
        if (sheet.Headings.FirstOrDefault(heading => heading.Quantity is Quantity.Total or Quantity.Diffuse) is { } transmittance)
        {
            throw new ScanFileException(sheet.Path, sheet.HeaderLine, transmittance.Column,
                $"\"{transmittance.Text}\" stands in a file without a wavelength column", "a column \"wavelength (nm)\", or the hazemeter readings T1 to T4");
        }
        if (sheet.Headings.FirstOrDefault(heading => heading.Specimen is not null) is { } wide)
        {
            throw new ScanFileException(sheet.Path, sheet.HeaderLine, wide.Column, $"\"{wide.Text}\" names a specimen in a file without a wavelength column",
                "hazemeter readings with one row per specimen and a column \"specimen\"");
        }
        var readings = SpectralReader.RequireReadings(sheet.Headings, "", sheet);
        var keys = sheet.Headings.Where(heading => heading.Key is not null).ToList();
        if (sheet.Rows.Count > 1 && keys.All(heading => heading.Key != ScanFileKeys.Specimen))
        {
            throw new ScanFileException(sheet.Path, sheet.HeaderLine, null, $"{sheet.Rows.Count} rows of readings, and no column names their specimens", "a column \"specimen\"");
        }
        var numbers = new NumberFormat(sheet.Path, sheet.Separator, options.DecimalMark);
        return [.. sheet.Rows.Select(row => new ScannedSpecimen(
            sheet.Path,
            row.Line,
            MeasurementBuilder.Build(
                new Scans
                {
                    Hazemeter = new HazemeterReadings
                    {
                        IncidentReading = Number(row, readings[0]),
                        TotalReading = Number(row, readings[1]),
                        InstrumentScatterReading = Number(row, readings[2]),
                        SpecimenScatterReading = Number(row, readings[3]),
                    },
                },
                sheet.Metadata.ForRow(keys
                    .Where(heading => row.Cells[heading.Column - 1].Length > 0)
                    .Select(heading => (heading.Key!, new MetadataEntry(row.Cells[heading.Column - 1], row.Line, heading.Column))))),
            [.. sheet.Notes]))];

        double Number(Row row, Heading heading) => numbers.Read(row.Cells[heading.Column - 1], row.Line, heading.Column, heading.Text);
    }
}

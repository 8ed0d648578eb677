using System.Collections.Immutable;

using ClearView.V1;

namespace ClearView.Client.Files.Parsing;

/// <summary>Reads a file with a wavelength column: one specimen, or several in the wide form.</summary>
internal static class SpectralReader
{
    private static readonly Quantity[] Readings = [Quantity.T1, Quantity.T2, Quantity.T3, Quantity.T4];

    /// <summary>The specimens of the file, in the order of their columns.</summary>
    /// <exception cref="ScanFileException">Something does not fit.</exception>
    public static IReadOnlyList<ScannedSpecimen> Read(Sheet sheet, ScanFileOptions options)
    {
        var wavelength = sheet.Headings.First(heading => heading.Quantity == Quantity.Wavelength);
        RefuseOddColumns(sheet);
        UnitReader.CheckWavelength(wavelength, sheet, options);
        var bySpecimen = sheet.Headings
            .Where(heading => heading.Quantity is not (null or Quantity.Wavelength))
            .GroupBy(heading => heading.Specimen)
            .ToList();
        if (bySpecimen.Count == 0)
        {
            throw Missing(sheet, "no column holds a scan", "a column \"total (%)\", or the columns T1, T2, T3 and T4");
        }
        if (bySpecimen.Count > 1 && bySpecimen.FirstOrDefault(group => group.Key is null) is { } nameless)
        {
            throw new ScanFileException(sheet.Path, sheet.HeaderLine, nameless.First().Column,
                $"\"{nameless.First().Text}\" names no specimen where other columns do", "\"SPECIMEN total (%)\" above every column, or above none");
        }
        RefuseSpecimenTwice(sheet, bySpecimen, options);
        TransmittanceUnit? unit = sheet.Headings.Where(IsTransmittance).ToList() is { Count: > 0 } columns
            ? UnitReader.Transmittance(columns, sheet, options)
            : null;

        var numbers = new NumberFormat(sheet.Path, sheet.Separator, options.DecimalMark);
        var table = sheet.Rows
            .Select(row => sheet.Headings.ToDictionary(
                heading => heading.Column,
                heading => heading.IsKnown ? numbers.Read(row.Cells[heading.Column - 1], row.Line, heading.Column, heading.Text) : double.NaN))
            .ToList();
        var (grid, descending) = GridBuilder.Build(
            [.. sheet.Rows.Select((row, i) => (table[i][wavelength.Column], row.Line))], wavelength.Column, sheet.Path, options.AcceptGaps);
        if (descending)
        {
            table.Reverse();
        }
        return [.. bySpecimen.Select(group => new ScannedSpecimen(
            sheet.Path,
            sheet.HeaderLine,
            MeasurementBuilder.Build(ToScans([.. group], grid, unit, table, sheet), OwnMetadata(group.Key, sheet)),
            [.. sheet.Notes]))];
    }

    private static Scans ToScans(
        List<Heading> columns, WavelengthGrid grid, TransmittanceUnit? unit, List<Dictionary<int, double>> table, Sheet sheet)
    {
        var whose = columns[0].Specimen is { } specimen ? $"{specimen} " : "";
        if (columns.Any(IsTransmittance) && columns.FirstOrDefault(column => !IsTransmittance(column)) is { } mixed)
        {
            throw new ScanFileException(sheet.Path, sheet.HeaderLine, mixed.Column,
                $"\"{mixed.Text}\" stands beside total or diffuse transmittance", "either total and diffuse, or T1 to T4");
        }
        if (columns.Any(IsTransmittance))
        {
            var total = columns.FirstOrDefault(column => column.Quantity == Quantity.Total)
                ?? throw Missing(sheet, $"there is no column \"{whose}total (%)\"", "total transmittance beside diffuse transmittance");
            var normalised = new NormalisedScans { Grid = grid.Clone(), TransmittanceUnit = unit!.Value, TotalTransmittance = { Values(total) } };
            if (columns.FirstOrDefault(column => column.Quantity == Quantity.Diffuse) is { } diffuse)
            {
                normalised.DiffuseTransmittance.Add(Values(diffuse));
            }
            return new Scans { Normalised = normalised };
        }
        var readings = RequireReadings(columns, whose, sheet);
        return new Scans
        {
            Sphere = new SphereScans
            {
                Grid = grid.Clone(),
                IncidentReading = { Values(readings[0]) },
                TotalReading = { Values(readings[1]) },
                InstrumentScatterReading = { Values(readings[2]) },
                SpecimenScatterReading = { Values(readings[3]) },
            },
        };

        IEnumerable<double> Values(Heading column) => table.Select(row => row[column.Column]);
    }

    /// <summary>The columns T1 to T4, in this order.</summary>
    /// <exception cref="ScanFileException">One is missing, or they are in different units.</exception>
    public static ImmutableArray<Heading> RequireReadings(IReadOnlyList<Heading> columns, string whose, Sheet sheet)
    {
        var readings = Readings
            .Select(quantity => columns.FirstOrDefault(column => column.Quantity == quantity)
                ?? throw Missing(sheet, $"there is no column \"{whose}{quantity}\"", $"the four columns {whose}T1, {whose}T2, {whose}T3 and {whose}T4"))
            .ToImmutableArray();
        UnitReader.CheckReadings(readings, sheet);
        return readings;
    }

    private static Metadata OwnMetadata(string? specimen, Sheet sheet) => specimen is null
        ? sheet.Metadata
        : sheet.Metadata.ForRow([(ScanFileKeys.Specimen, new MetadataEntry(specimen, sheet.HeaderLine, null))]);

    private static bool IsTransmittance(Heading heading) => heading.Quantity is Quantity.Total or Quantity.Diffuse;

    private static void RefuseOddColumns(Sheet sheet)
    {
        if (sheet.Headings.FirstOrDefault(heading => heading.Key is not null) is { } key)
        {
            throw new ScanFileException(sheet.Path, sheet.HeaderLine, key.Column, $"\"{key.Text}\" is a column of a file with wavelengths",
                $"one value for the whole file, as a line \"# {key.Key}: ...\" (only hazemeter readings have it as a column)");
        }
        foreach (var group in sheet.Headings.Where(heading => heading.Quantity is not null).GroupBy(heading => (heading.Quantity, heading.Specimen?.ToUpperInvariant())))
        {
            if (group.Skip(1).FirstOrDefault() is { } second)
            {
                throw new ScanFileException(sheet.Path, sheet.HeaderLine, second.Column,
                    $"\"{second.Text}\" means the same as \"{group.First().Text}\" in column {group.First().Column}", "each quantity once");
            }
        }
    }

    private static void RefuseSpecimenTwice(Sheet sheet, List<IGrouping<string?, Heading>> bySpecimen, ScanFileOptions options)
    {
        if (bySpecimen[0].Key is null)
        {
            return;
        }
        if (sheet.Metadata.InFile(ScanFileKeys.Specimen) is { } inFile)
        {
            throw new ScanFileException(sheet.Path, inFile.Line, inFile.Column, "a specimen is given for a file whose columns name specimens", "one or the other");
        }
        if (options.Overrides.ContainsKey(ScanFileKeys.Specimen) && bySpecimen.Count > 1)
        {
            throw new ScanFileException(sheet.Path, sheet.HeaderLine, null, $"one specimen name overrides the {bySpecimen.Count} specimens of the file", "no override of the specimen");
        }
    }

    private static ScanFileException Missing(Sheet sheet, string problem, string expected) =>
        new(sheet.Path, sheet.HeaderLine, null, problem, expected);
}

using ClearView.V1;

namespace ClearView.Client.Files.Parsing;

/// <summary>Settles the units of a file's columns: header, then key, then option; never a guess.</summary>
internal static class UnitReader
{
    /// <summary>Makes sure that wavelengths are in nm.</summary>
    /// <exception cref="ScanFileException">The header gives another unit, or none where no option gives one.</exception>
    public static void CheckWavelength(Heading heading, Sheet sheet, ScanFileOptions options)
    {
        if (heading.Unit is null && !options.WavelengthsAreNm)
        {
            throw new ScanFileException(sheet.Path, sheet.HeaderLine, heading.Column, $"\"{heading.Text}\" does not say its unit",
                "\"wavelength (nm)\" (or the option that states nm)");
        }
        if (heading.Unit is not (null or "nm"))
        {
            throw new ScanFileException(sheet.Path, sheet.HeaderLine, heading.Column, $"wavelengths in \"{heading.Unit}\"", "wavelengths in nm");
        }
    }

    /// <summary>The one scale of all total and diffuse columns.</summary>
    /// <exception cref="ScanFileException">Mixed, unknown, contradictory or missing.</exception>
    public static TransmittanceUnit Transmittance(IReadOnlyList<Heading> columns, Sheet sheet, ScanFileOptions options)
    {
        var stated = columns.Where(column => column.Unit is not null).ToList();
        foreach (var column in stated)
        {
            if (column.Unit is not ("percent" or "fraction"))
            {
                throw new ScanFileException(sheet.Path, sheet.HeaderLine, column.Column, $"\"{column.Text}\" has the unit \"{column.Unit}\"", "percent (%) or fraction");
            }
            if (column.Unit != stated[0].Unit)
            {
                throw new ScanFileException(sheet.Path, sheet.HeaderLine, column.Column,
                    $"mixed units: \"{column.Text}\" beside \"{stated[0].Text}\"", "one unit in all total and diffuse columns");
            }
        }
        var said = ByKeyOrOption(sheet, options);
        TransmittanceUnit? inHeader = stated.Count == 0 ? null : stated[0].Unit == "percent" ? TransmittanceUnit.Percent : TransmittanceUnit.Fraction;
        if (inHeader is not null && said is not null && inHeader != said)
        {
            throw new ScanFileException(sheet.Path, sheet.HeaderLine, stated[0].Column,
                $"the header says {Word(inHeader.Value)} where a key or option says {Word(said.Value)}", "one of them, or both the same");
        }
        var silent = columns.FirstOrDefault(column => column.Unit is null);
        if (silent is not null && inHeader is not null && said is null)
        {
            throw new ScanFileException(sheet.Path, sheet.HeaderLine, silent.Column,
                $"\"{silent.Text}\" does not say its unit beside \"{stated[0].Text}\"", $"\"{silent.Text} (%)\" or \"{silent.Text} (fraction)\"");
        }
        return inHeader ?? said ?? throw new ScanFileException(sheet.Path, sheet.HeaderLine, columns[0].Column,
            $"\"{columns[0].Text}\" does not say its unit", $"\"{columns[0].Text} (%)\" or \"{columns[0].Text} (fraction)\" (or the option that states it)");
    }

    /// <summary>Refuses T1 to T4 in different units; which unit does not matter, since only their ratios count.</summary>
    /// <exception cref="ScanFileException">Mixed.</exception>
    public static void CheckReadings(IReadOnlyList<Heading> columns, Sheet sheet)
    {
        if (columns.FirstOrDefault(column => column.Unit != columns[0].Unit) is { } odd)
        {
            throw new ScanFileException(sheet.Path, sheet.HeaderLine, odd.Column, $"mixed units: \"{odd.Text}\" beside \"{columns[0].Text}\"", "T1 to T4 in one unit");
        }
    }

    private static TransmittanceUnit? ByKeyOrOption(Sheet sheet, ScanFileOptions options)
    {
        if (sheet.Metadata.Get(ScanFileKeys.TransmittanceUnit) is not { } entry)
        {
            return options.TransmittanceUnit;
        }
        return entry.Value.ToLowerInvariant() switch
        {
            "percent" or "%" => TransmittanceUnit.Percent,
            "fraction" => TransmittanceUnit.Fraction,
            _ => throw new ScanFileException(sheet.Path, entry.Line, entry.Column, $"{ScanFileKeys.TransmittanceUnit} is \"{entry.Value}\"", "percent or fraction"),
        };
    }

    private static string Word(TransmittanceUnit unit) => unit == TransmittanceUnit.Percent ? "percent" : "fraction";
}

using ClearView.Contract.Validation;
using ClearView.Optics.Spectra;

namespace ClearView.Contract.Mapping;

/// <summary>Reads a small table of values over wavelength from the wire.</summary>
internal static class TableReader
{
    public static Spectrum? Read(
        IReadOnlyList<double> wavelengthNm, IReadOnlyList<double> values, string path, string valuesField, Violations violations)
    {
        if (GridReader.ReadIrregular(wavelengthNm, $"{path}.wavelength_nm", violations) is not { } grid)
        {
            return null;
        }

        if (values.Count != grid.Count)
        {
            violations.Add($"{path}.{valuesField}", $"had {values.Count} values; expected {grid.Count}, one per wavelength.");
            return null;
        }

        for (int i = 0; i < values.Count; i++)
        {
            if (!double.IsFinite(values[i]))
            {
                violations.Add($"{path}.{valuesField}[{i}]", $"was {values[i]}; expected a finite number.");
                return null;
            }
        }

        return new Spectrum(grid, [.. values]);
    }
}

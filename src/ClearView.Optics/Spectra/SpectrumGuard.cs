using System.Globalization;

namespace ClearView.Optics.Spectra;

/// <summary>Checks that spectra share.</summary>
internal static class SpectrumGuard
{
    public static void RequireFinite(WavelengthGrid grid, ReadOnlySpan<double> values, string parameter)
    {
        if (values.Length != grid.Count)
        {
            throw new ArgumentException(
                string.Create(CultureInfo.InvariantCulture, $"{parameter} has {values.Length} values; expected {grid.Count}, one per wavelength."),
                parameter);
        }

        for (int i = 0; i < values.Length; i++)
        {
            if (!double.IsFinite(values[i]))
            {
                throw new ArgumentException(
                    string.Create(CultureInfo.InvariantCulture, $"{parameter} is {values[i]} at {grid[i]} nm; expected a finite number."),
                    parameter);
            }
        }
    }
}

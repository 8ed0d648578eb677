using System.Globalization;

using ClearView.V1;

namespace ClearView.Client.Files.Parsing;

/// <summary>Makes the wire's grid of the wavelengths of a file: regular where they are evenly spaced, else one by one.</summary>
internal static class GridBuilder
{
    private const double FirstNm = 200;
    private const double LastNm = 1100;
    private const double WidestGapNm = 50;
    private const int MostWavelengths = 2001;

    // Far below what any instrument resolves, far above what a decimal in a file loses in binary.
    private const double EvenWithinNm = 1e-6;

    /// <summary>Builds the grid.</summary>
    /// <param name="wavelengthsNm">Wavelengths, nm, each with its line, ascending or descending as the file has them.</param>
    /// <param name="column">Column of the wavelengths, for messages.</param>
    /// <param name="path">The file, for messages.</param>
    /// <param name="acceptGaps">Whether a wavelength may be missing from an otherwise even scan.</param>
    /// <returns>The grid, ascending, and whether the file had it descending.</returns>
    /// <exception cref="ScanFileException">Too few or too many, out of range, out of order, twice, or with a gap.</exception>
    public static (WavelengthGrid Grid, bool Descending) Build(
        IReadOnlyList<(double Nm, int Line)> wavelengthsNm, int column, string path, bool acceptGaps)
    {
        if (wavelengthsNm.Count is < 2 or > MostWavelengths)
        {
            throw new ScanFileException(path, wavelengthsNm[^1].Line, column, $"the scan has {wavelengthsNm.Count} wavelength(s)", $"2 to {MostWavelengths}");
        }
        var descending = wavelengthsNm[1].Nm < wavelengthsNm[0].Nm;
        CheckOrder(wavelengthsNm, descending, column, path);
        if (!acceptGaps)
        {
            CheckGaps(wavelengthsNm, column, path);
        }
        var ascending = descending ? [.. wavelengthsNm.Reverse()] : wavelengthsNm;
        return (ToGrid([.. ascending.Select(one => one.Nm)]), descending);
    }

    private static void CheckOrder(IReadOnlyList<(double Nm, int Line)> all, bool descending, int column, string path)
    {
        for (var i = 0; i < all.Count; i++)
        {
            var (nm, line) = all[i];
            if (nm is < FirstNm or > LastNm)
            {
                throw new ScanFileException(path, line, column, $"wavelength {Text(nm)} nm", $"{FirstNm} to {LastNm} nm");
            }
            if (i == 0)
            {
                continue;
            }
            var stepNm = descending ? all[i - 1].Nm - nm : nm - all[i - 1].Nm;
            if (stepNm <= 0)
            {
                throw all.Take(i).FirstOrDefault(other => other.Nm == nm) is { Line: > 0 } twin
                    ? new ScanFileException(path, line, column, $"wavelength {Text(nm)} nm stands a second time (first on line {twin.Line})", "each wavelength once")
                    : new ScanFileException(path, line, column, $"wavelength {Text(nm)} nm is out of order", $"wavelengths that keep {(descending ? "falling" : "rising")}");
            }
            if (stepNm > WidestGapNm)
            {
                throw new ScanFileException(path, line, column, $"a gap of {Text(stepNm)} nm before {Text(nm)} nm", $"no gap wider than {WidestGapNm} nm");
            }
        }
    }

    // One step that is a multiple of the equal steps on both its sides: a row got lost.
    private static void CheckGaps(IReadOnlyList<(double Nm, int Line)> all, int column, string path)
    {
        for (var i = 2; i < all.Count - 1; i++)
        {
            var beforeNm = all[i - 1].Nm - all[i - 2].Nm;
            var hereNm = all[i].Nm - all[i - 1].Nm;
            var afterNm = all[i + 1].Nm - all[i].Nm;
            var ratio = hereNm / beforeNm;
            if (Math.Abs(beforeNm - afterNm) <= EvenWithinNm && ratio > 1.5 && Math.Abs(ratio - Math.Round(ratio)) <= EvenWithinNm)
            {
                throw new ScanFileException(path, all[i].Line, column,
                    $"wavelength {Text(all[i - 1].Nm + beforeNm)} nm is missing before {Text(all[i].Nm)} nm in a scan that is otherwise every {Text(Math.Abs(beforeNm))} nm",
                    "every wavelength of the scan (or the option to accept gaps)");
            }
        }
    }

    private static WavelengthGrid ToGrid(double[] nm)
    {
        var stepNm = (nm[^1] - nm[0]) / (nm.Length - 1);
        // A step such as 5 is written as 5, not as the quotient that lies one bit beside it.
        var tidyStepNm = Math.Round(stepNm, 6);
        var step = Math.Abs(nm[0] + (tidyStepNm * (nm.Length - 1)) - nm[^1]) <= EvenWithinNm ? tidyStepNm : stepNm;
        for (var i = 0; i < nm.Length; i++)
        {
            if (Math.Abs(nm[0] + (step * i) - nm[i]) > EvenWithinNm)
            {
                return new WavelengthGrid { Irregular = new IrregularGrid { WavelengthNm = { nm } } };
            }
        }
        return new WavelengthGrid { Regular = new RegularGrid { StartNm = nm[0], StepNm = step, Count = (uint)nm.Length } };
    }

    private static string Text(double nm) => Math.Round(nm, 6).ToString(CultureInfo.InvariantCulture);
}

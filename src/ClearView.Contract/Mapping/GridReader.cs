using ClearView.Contract.Validation;
using ClearView.Optics.Spectra;

namespace ClearView.Contract.Mapping;

/// <summary>Reads wavelengths from the wire.</summary>
internal static class GridReader
{
    public static WavelengthGrid? Read(V1.WavelengthGrid? grid, string path, Violations violations)
    {
        switch (grid?.FormCase)
        {
            case V1.WavelengthGrid.FormOneofCase.Regular:
                return ReadRegular(grid.Regular, $"{path}.regular", violations);
            case V1.WavelengthGrid.FormOneofCase.Irregular:
                return ReadIrregular(grid.Irregular.WavelengthNm, $"{path}.irregular.wavelength_nm", violations);
            default:
                violations.Add(path, $"was missing; expected regular or irregular wavelengths.");
                return null;
        }
    }

    private static WavelengthGrid? ReadRegular(V1.RegularGrid grid, string path, Violations violations)
    {
        bool valid = true;
        if (!(grid.StartNm >= WavelengthGrid.MinimumNm && grid.StartNm <= WavelengthGrid.MaximumNm))
        {
            violations.Add($"{path}.start_nm", $"was {grid.StartNm}; expected {WavelengthGrid.MinimumNm} to {WavelengthGrid.MaximumNm} nm.");
            valid = false;
        }

        if (!(grid.StepNm > 0 && grid.StepNm <= WavelengthGrid.MaximumGapNm))
        {
            violations.Add($"{path}.step_nm", $"was {grid.StepNm}; expected above 0 and at most {WavelengthGrid.MaximumGapNm} nm.");
            valid = false;
        }

        if (grid.Count is < 2 or > WavelengthGrid.MaximumCount)
        {
            violations.Add($"{path}.count", $"was {grid.Count}; expected 2 to {WavelengthGrid.MaximumCount} wavelengths.");
            valid = false;
        }

        if (valid && grid.StartNm + ((grid.Count - 1) * grid.StepNm) is var last && last > WavelengthGrid.MaximumNm)
        {
            violations.Add($"{path}.count", $"was {grid.Count}, so that the last wavelength would be {last} nm; expected at most {WavelengthGrid.MaximumNm} nm.");
            valid = false;
        }

        return valid ? SharedGrids.Regular(grid.StartNm, grid.StepNm, (int)grid.Count) : null;
    }

    public static WavelengthGrid? ReadIrregular(IReadOnlyList<double> wavelengthNm, string path, Violations violations)
    {
        int count = wavelengthNm.Count;
        if (count is < 2 or > WavelengthGrid.MaximumCount)
        {
            violations.Add(path, $"had {count} wavelengths; expected 2 to {WavelengthGrid.MaximumCount}.");
            return null;
        }

        for (int i = 0; i < count; i++)
        {
            double nm = wavelengthNm[i];
            if (!(nm >= WavelengthGrid.MinimumNm && nm <= WavelengthGrid.MaximumNm))
            {
                violations.Add($"{path}[{i}]", $"was {nm}; expected {WavelengthGrid.MinimumNm} to {WavelengthGrid.MaximumNm} nm.");
                return null;
            }

            if (i > 0 && !(nm > wavelengthNm[i - 1] && nm - wavelengthNm[i - 1] <= WavelengthGrid.MaximumGapNm))
            {
                violations.Add(
                    $"{path}[{i}]",
                    $"was {nm} after {wavelengthNm[i - 1]}; expected ascending wavelengths at most {WavelengthGrid.MaximumGapNm} nm apart.");
                return null;
            }
        }

        return WavelengthGrid.FromWavelengths([.. wavelengthNm]);
    }
}

using ClearView.Contract.Mapping;
using ClearView.V1;

using WavelengthGrid = ClearView.Optics.Spectra.WavelengthGrid;

namespace ClearView.Contract.Validation;

/// <summary>Rules for a method that is to be stored.</summary>
public static class StoreMethodRules
{
    /// <summary>Checks everything that can be checked without a measurement.</summary>
    /// <param name="request">The request as it came.</param>
    /// <param name="violations">Takes what is at fault.</param>
    public static void Check(StoreMethodRequest request, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(request);
        ArgumentNullException.ThrowIfNull(violations);
        DocumentRules.Check(request.Name, request.Description, request.StoredBy, violations);
        MethodReader.Read(request.Method, "method", violations);
        if (request.Method is not { } method)
        {
            return;
        }

        // Stands for the measured thickness, which every measurement under the method will have to bring.
        var anyThickness = new Conditions { ThicknessUm = 1 };
        MethodExtras.ReadThickness(method.ReferenceThickness, anyThickness, "method.reference_thickness", violations);
        if (method.Uncertainty is { } uncertainty)
        {
            // Figures per wavelength have to fit the grid of each scan; here there is none, so that they fit one of their own.
            UncertaintyReader.Read(
                uncertainty, GridOf(uncertainty.RepeatabilityByWavelengthPercent.Count), "method.uncertainty", violations);
        }
    }

    private static WavelengthGrid GridOf(int count) =>
        WavelengthGrid.Regular(WavelengthGrid.MinimumNm, 0.1, Math.Clamp(count, 2, WavelengthGrid.MaximumCount));
}

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission.Thickness;

/// <summary>Scales transmittance from the measured to a reference thickness (Bouguer-Lambert).</summary>
/// <remarks>
/// The surfaces are taken off, the internal transmittance is raised to the ratio of the thicknesses, and the surfaces are put
/// back. Holds for absorption in the bulk; pigmented or strongly scattering walls follow it only roughly.
/// </remarks>
public sealed record ThicknessScaling
{
    // Noise on the 100 % line carries a clear specimen this far above 1; beyond it something is wrong.
    private const double HighestInternal = 1.005;

    /// <summary>Takes what the scaling rests on.</summary>
    /// <param name="index">Refractive index of the resin.</param>
    /// <param name="measuredThicknessUm">Thickness that was measured, µm, above 0.</param>
    /// <param name="referenceThicknessUm">Thickness to scale to, µm, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A thickness is not above 0.</exception>
    public ThicknessScaling(IRefractiveIndex index, double measuredThicknessUm, double referenceThicknessUm)
    {
        ArgumentNullException.ThrowIfNull(index);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(measuredThicknessUm);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(referenceThicknessUm);
        Index = index;
        MeasuredThicknessUm = measuredThicknessUm;
        ReferenceThicknessUm = referenceThicknessUm;
    }

    /// <summary>Refractive index of the resin.</summary>
    public IRefractiveIndex Index { get; }

    /// <summary>Thickness that was measured, µm.</summary>
    public double MeasuredThicknessUm { get; }

    /// <summary>Thickness scaled to, µm.</summary>
    public double ReferenceThicknessUm { get; }

    /// <summary>Reference over measured thickness.</summary>
    public double Ratio => ReferenceThicknessUm / MeasuredThicknessUm;

    /// <summary>Scales a spectrum.</summary>
    /// <param name="measured">Total transmittance at the measured thickness.</param>
    /// <exception cref="UnphysicalTransmittanceException">Internal transmittance is below 0 or above 100.5 % somewhere.</exception>
    public TransmittanceSpectrum Scale(TransmittanceSpectrum measured)
    {
        Spectrum internalTransmittance = InternalTransmittance.FromMeasured(measured, Index);
        double[] wrong = [.. Enumerable.Range(0, measured.Grid.Count)
            .Where(i => internalTransmittance[i] is < 0 or > HighestInternal)
            .Select(i => measured.Grid[i])];
        if (wrong.Length > 0)
        {
            throw new UnphysicalTransmittanceException([.. wrong]);
        }

        var scaled = new double[measured.Grid.Count];
        for (int i = 0; i < scaled.Length; i++)
        {
            scaled[i] = InternalTransmittance.ToMeasured(Math.Pow(internalTransmittance[i], Ratio), Index.At(measured.Grid[i]));
        }

        return TransmittanceSpectrum.FromFractions(measured.Grid, scaled);
    }

    /// <summary>Scales haze by the model of single scattering in the bulk: 1 − (1 − H)^ratio.</summary>
    /// <remarks>
    /// The light that stays unscattered falls off exponentially with thickness. Surface haze does not grow with thickness, so
    /// that this is an upper estimate for a film whose haze sits on its surfaces; results carry a caveat.
    /// </remarks>
    /// <param name="measured">Haze at the measured thickness, below 100 %.</param>
    /// <exception cref="ArgumentOutOfRangeException">Haze is 100 % or more.</exception>
    public Haze ScaleBulkHaze(Haze measured)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(measured.Fraction, 1, nameof(measured));
        return Haze.FromFraction(-double.ExpM1(Ratio * double.LogP1(-measured.Fraction)));
    }

    /// <summary>Derivative of the scaled haze with respect to the measured one: r·(1 − H)^(r − 1), r the ratio of thicknesses.</summary>
    internal double BulkHazeDerivative(Haze measured) => Ratio * Math.Pow(1 - measured.Fraction, Ratio - 1);

    /// <summary>Derivative of the scaled transmittance with respect to the measured one, at one wavelength.</summary>
    internal double Derivative(double transmittance, double wavelengthNm)
    {
        double n = Index.At(wavelengthNm);
        double tau = InternalTransmittance.FromMeasured(transmittance, n);
        double scaled = Math.Pow(tau, Ratio);
        return InternalTransmittance.DerivativeToMeasured(scaled, n)
            * Ratio * Math.Pow(tau, Ratio - 1)
            * InternalTransmittance.DerivativeFromMeasured(transmittance, n);
    }
}

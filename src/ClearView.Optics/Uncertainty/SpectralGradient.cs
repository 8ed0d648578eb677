namespace ClearView.Optics.Uncertainty;

/// <summary>A quantity with its derivatives with respect to the spectra themselves, over the wavelengths that it rests on.</summary>
/// <param name="Value">The value.</param>
/// <param name="Total">∂y/∂T, one per wavelength from <paramref name="First"/> on, per unit of fraction; 0 beyond its end.</param>
/// <param name="Diffuse">∂y/∂D, likewise; empty where y does not depend on diffuse transmittance.</param>
/// <param name="First">Position of the first wavelength that has a derivative.</param>
internal sealed record SpectralGradient(double Value, double[] Total, double[] Diffuse, int First = 0)
{
    /// <summary>Signed move at one standard uncertainty of one error on whole spectra.</summary>
    public double Move(UncertaintySource source, int component) =>
        VectorMath.Dot(source.TotalDeviation(component).Slice(First, Total.Length), Total)
            + (Diffuse.Length == 0 ? 0 : VectorMath.Dot(source.DiffuseDeviation(component).Slice(First, Diffuse.Length), Diffuse));

    /// <summary>Variance under one source (JCGM 100, 5.2.2).</summary>
    public double Variance(UncertaintySource source)
    {
        if (source.Correlation != SourceCorrelation.WholeSpectrum)
        {
            return VectorMath.SquaredNorm(source.TotalDeviation(0).Slice(First, Total.Length), Total)
                + (Diffuse.Length == 0 ? 0 : VectorMath.SquaredNorm(source.DiffuseDeviation(0).Slice(First, Diffuse.Length), Diffuse));
        }

        double variance = 0;
        for (int component = 0; component < source.ComponentCount; component++)
        {
            double moved = Move(source, component);
            variance += moved * moved;
        }

        return variance;
    }
}

namespace ClearView.Optics.Uncertainty;

/// <summary>A quantity with its derivatives with respect to the spectra themselves.</summary>
/// <param name="Value">The value.</param>
/// <param name="Total">∂y/∂T, one per wavelength, per unit of fraction.</param>
/// <param name="Diffuse">∂y/∂D, one per wavelength, per unit of fraction; empty where y does not depend on diffuse transmittance.</param>
internal sealed record SpectralGradient(double Value, double[] Total, double[] Diffuse)
{
    /// <summary>Variance under one source (JCGM 100, 5.2.2).</summary>
    public double Variance(UncertaintySource source)
    {
        double variance = 0;
        if (source.Correlation == SourceCorrelation.WholeSpectrum)
        {
            for (int component = 0; component < source.ComponentCount; component++)
            {
                double moved = VectorMath.Dot(Total, source.TotalDeviation(component))
                    + (Diffuse.Length == 0 ? 0 : VectorMath.Dot(Diffuse, source.DiffuseDeviation(component)));
                variance += moved * moved;
            }

            return variance;
        }

        ReadOnlySpan<double> total = source.TotalDeviation(0);
        ReadOnlySpan<double> diffuse = source.DiffuseDeviation(0);
        for (int i = 0; i < Total.Length; i++)
        {
            variance += Total[i] * Total[i] * total[i] * total[i];
        }

        for (int i = 0; i < Diffuse.Length; i++)
        {
            variance += Diffuse[i] * Diffuse[i] * diffuse[i] * diffuse[i];
        }

        return variance;
    }
}

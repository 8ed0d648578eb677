using ClearView.Optics.Transmission;

namespace ClearView.Optics.Uncertainty;

/// <summary>Draws whole spectra: the measured ones with the errors of every source added (JCGM 101, 6.4).</summary>
/// <remarks>One per run: it owns the drawn spectra and writes them anew at every draw.</remarks>
internal sealed class SpectrumDraw
{
    private readonly TransmittanceScans _centre;
    private readonly UncertaintySource[] _sources;
    private readonly double[] _total;
    private readonly double[] _diffuse;

    public SpectrumDraw(TransmittanceScans centre, IEnumerable<UncertaintySource> sources)
    {
        _centre = centre;
        _sources = [.. sources];
        _total = new double[centre.Grid.Count];
        _diffuse = centre.Diffuse is null ? [] : new double[centre.Grid.Count];
    }

    /// <summary>The drawn total transmittance, fractions.</summary>
    public double[] Total => _total;

    /// <summary>The drawn diffuse transmittance, fractions; empty where it was not measured.</summary>
    public double[] Diffuse => _diffuse;

    /// <summary>Draws.</summary>
    public void Next(TrialRandom random)
    {
        _centre.Total.Fractions.CopyTo(_total);
        _centre.Diffuse?.Fractions.CopyTo(_diffuse);
        foreach (UncertaintySource source in _sources)
        {
            // The figure itself is uncertain with finite degrees of freedom: one scale for all that it gives the size of.
            double scale = random.StudentScale(source.DegreesOfFreedom);
            bool each = source.Correlation == SourceCorrelation.PerWavelength;
            for (int component = 0; component < source.ComponentCount; component++)
            {
                ReadOnlySpan<double> total = source.TotalDeviation(component);
                ReadOnlySpan<double> diffuse = source.DiffuseDeviation(component);
                if (each)
                {
                    AddEach(_total, total, source, scale, random);
                    AddEach(_diffuse, diffuse, source, scale, random);
                }
                else
                {
                    double error = One(source, scale, random);
                    VectorMath.AddMultiple(_total, error, total);
                    VectorMath.AddMultiple(_diffuse, error, diffuse);
                }
            }
        }
    }

    private static void AddEach(Span<double> spectrum, ReadOnlySpan<double> deviation, UncertaintySource source, double scale, TrialRandom random)
    {
        for (int i = 0; i < deviation.Length; i++)
        {
            spectrum[i] += One(source, scale, random) * deviation[i];
        }
    }

    private static double One(UncertaintySource source, double scale, TrialRandom random) =>
        source.Distribution == ErrorDistribution.Rectangular ? random.Rectangular() : scale * random.Normal();
}

using System.Collections.Immutable;

using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Uncertainty;

/// <summary>Type A from n specimens' spectra: Σ (sₖ − s̄)(sₖ − s̄)ᵀ / (n(n − 1)), as n whole-spectrum components (JCGM 100, 4.2.3 and 5.2.3).</summary>
internal static class SpecimenSpread
{
    /// <summary>Name of the source, for budgets.</summary>
    public const string Name = "Specimen-to-specimen spread";

    public static UncertaintySource Of(ImmutableArray<TransmittanceScans> specimens, TransmittanceScans scans)
    {
        int n = specimens.Length;
        if (n < 2 || specimens.Any(s => s.Grid != scans.Grid || (s.Diffuse is null) != (scans.Diffuse is null)))
        {
            throw new ArgumentException("The spread needs two or more specimens, scanned as the one that is evaluated.", nameof(specimens));
        }

        double[] meanTotal = Mean(specimens.Select(s => s.Total));
        double[] meanDiffuse = scans.Diffuse is null ? [] : Mean(specimens.Select(s => s.Diffuse!));
        double divisor = Math.Sqrt(n * (double)(n - 1));
        return new UncertaintySource(
            Name,
            SourceCorrelation.WholeSpectrum,
            ErrorDistribution.Normal,
            n - 1,
            [
                .. specimens.Select(s => (
                    Less(s.Total, meanTotal, divisor),
                    s.Diffuse is { } d ? Less(d, meanDiffuse, divisor) : [])),
            ]);
    }

    private static double[] Mean(IEnumerable<TransmittanceSpectrum> spectra)
    {
        TransmittanceSpectrum[] all = [.. spectra];
        return [.. Enumerable.Range(0, all[0].Grid.Count).Select(i => all.Average(s => s.Fractions[i]))];
    }

    private static double[] Less(TransmittanceSpectrum spectrum, double[] mean, double divisor)
    {
        double[] values = spectrum.Fractions.ToArray();
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = (values[i] - mean[i]) / divisor;
        }

        return values;
    }
}

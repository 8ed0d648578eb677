using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Uncertainty;

/// <summary>Turns a user's figures into deviations of the spectra.</summary>
internal static class SourceBuilder
{
    public static IEnumerable<UncertaintySource> Build(UncertaintyInputs inputs, TransmittanceScans scans)
    {
        if (inputs.RepeatabilityPercentByWavelength is { } byWavelength)
        {
            if (byWavelength.Grid != scans.Grid)
            {
                throw new ArgumentException($"The repeatability is on {byWavelength.Grid}, the scans on {scans.Grid}.", nameof(inputs));
            }

            yield return PerWavelength(scans, [.. byWavelength.Values.ToArray().Select(v => Required(v, nameof(inputs.RepeatabilityPercentByWavelength)) / 100)], inputs);
        }
        else if (Required(inputs.RepeatabilityPercent, nameof(inputs.RepeatabilityPercent)) > 0)
        {
            yield return PerWavelength(scans, [.. Enumerable.Repeat(inputs.RepeatabilityPercent / 100, scans.Grid.Count)], inputs);
        }

        (string Name, string Field, double Size, Func<TransmittanceSpectrum, double[]> Deviation, ErrorDistribution Distribution)[] common =
        [
            ("0 % offset", nameof(inputs.ZeroOffsetPercent), inputs.ZeroOffsetPercent / 100, t => Map(t, v => v - 1), ErrorDistribution.Normal),
            ("100 % line drift", nameof(inputs.HundredLineDriftPercent), inputs.HundredLineDriftPercent / 100, t => Map(t, v => v), ErrorDistribution.Normal),
            ("Photometric linearity", nameof(inputs.LinearityPercent), inputs.LinearityPercent / 100, t => Map(t, v => 4 * v * (1 - v)), ErrorDistribution.Normal),
            ("Wavelength scale", nameof(inputs.WavelengthShiftNm), inputs.WavelengthShiftNm, t => SpectrumDerivative.First(t), ErrorDistribution.Normal),
            ("Stray light", nameof(inputs.StrayLightPercent), inputs.StrayLightPercent / 100, StrayLight, ErrorDistribution.Normal),
            ("Bandpass", nameof(inputs.BandpassNm), inputs.BandpassNm * inputs.BandpassNm / 12 / Math.Sqrt(3), t => SpectrumDerivative.Second(t), ErrorDistribution.Rectangular),
        ];
        foreach (var (name, field, size, deviation, distribution) in common)
        {
            if (Required(size, field) > 0)
            {
                yield return new UncertaintySource(
                    name,
                    SourceCorrelation.WholeSpectrum,
                    distribution,
                    double.PositiveInfinity,
                    [(Scaled(deviation(scans.Total), size), scans.Diffuse is { } d ? Scaled(deviation(d), size) : [])]);
            }
        }

        if (!inputs.Specimens.IsDefaultOrEmpty)
        {
            yield return Spread(inputs, scans);
        }
    }

    private static UncertaintySource PerWavelength(TransmittanceScans scans, double[] sizes, UncertaintyInputs inputs) => new(
        "Repeatability",
        SourceCorrelation.PerWavelength,
        ErrorDistribution.Normal,
        inputs.RepeatabilityDegreesOfFreedom,
        [(sizes, scans.Diffuse is null ? [] : sizes)]);

    /// <summary>Type A from n specimens: Σ (sₖ − s̄)(sₖ − s̄)ᵀ / (n(n − 1)), as n whole-spectrum components (JCGM 100, 4.2.3 and 5.2.3).</summary>
    private static UncertaintySource Spread(UncertaintyInputs inputs, TransmittanceScans scans)
    {
        int n = inputs.Specimens.Length;
        if (n < 2 || inputs.Specimens.Any(s => s.Grid != scans.Grid || (s.Diffuse is null) != (scans.Diffuse is null)))
        {
            throw new ArgumentException("The spread needs two or more specimens, scanned as the one that is evaluated.", nameof(inputs));
        }

        double[] meanTotal = Mean(inputs.Specimens.Select(s => s.Total));
        double[] meanDiffuse = scans.Diffuse is null ? [] : Mean(inputs.Specimens.Select(s => s.Diffuse!));
        double divisor = Math.Sqrt(n * (double)(n - 1));
        return new UncertaintySource(
            "Specimen-to-specimen spread",
            SourceCorrelation.WholeSpectrum,
            ErrorDistribution.Normal,
            n - 1,
            [
                .. inputs.Specimens.Select(s => (
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

    private static double[] StrayLight(TransmittanceSpectrum spectrum)
    {
        double mean = spectrum.Fractions.ToArray().Average();
        return Map(spectrum, v => mean - v);
    }

    private static double[] Map(TransmittanceSpectrum spectrum, Func<double, double> map) => Array.ConvertAll(spectrum.Fractions.ToArray(), v => map(v));

    private static double[] Scaled(double[] values, double size) => Array.ConvertAll(values, v => v * size);

    private static double Required(double value, string field) =>
        value >= 0 && double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(field, value, FormattableString.Invariant($"{field} was {value}; expected a finite number, 0 or more."));
}

using System.Collections.Immutable;

using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Uncertainty;

/// <summary>Turns a user's figures into deviations of the spectra: checked and prepared once for a grid, then applied to each reading.</summary>
internal sealed class SourceBuilder
{
    private readonly UncertaintyInputs _inputs;
    private readonly WavelengthGrid _grid;
    private readonly UncertaintySource? _repeatabilityOfTotal;
    private readonly UncertaintySource? _repeatabilityOfBoth;
    private readonly SpectrumDerivative? _wavelengthShift;
    private readonly SpectrumDerivative? _bandpass;

    public SourceBuilder(UncertaintyInputs inputs, WavelengthGrid grid)
    {
        _inputs = inputs;
        _grid = grid;
        Require(inputs.ZeroOffsetPercent, nameof(inputs.ZeroOffsetPercent));
        Require(inputs.HundredLineDriftPercent, nameof(inputs.HundredLineDriftPercent));
        Require(inputs.LinearityPercent, nameof(inputs.LinearityPercent));
        Require(inputs.WavelengthShiftNm, nameof(inputs.WavelengthShiftNm));
        Require(inputs.StrayLightPercent, nameof(inputs.StrayLightPercent));
        Require(inputs.BandpassNm, nameof(inputs.BandpassNm));
        if (Repeatability(inputs, grid) is { } sizes)
        {
            _repeatabilityOfTotal = PerWavelength(sizes, [], inputs);
            _repeatabilityOfBoth = PerWavelength(sizes, sizes, inputs);
        }

        if (inputs.WavelengthShiftNm > 0)
        {
            _wavelengthShift = SpectrumDerivative.First(grid, inputs.WavelengthShiftNm);
        }

        if (inputs.BandpassNm > 0)
        {
            // A triangular band pass of width Δ adds Δ²/12·T″; taken as the half-width of a rectangular distribution.
            _bandpass = SpectrumDerivative.Second(grid, inputs.BandpassNm * inputs.BandpassNm / 12 / Math.Sqrt(3));
        }
    }

    private delegate double[] Deviation(ReadOnlySpan<double> fractions, double size);

    public ImmutableArray<UncertaintySource> Build(TransmittanceScans scans)
    {
        if (scans.Grid != _grid)
        {
            throw new ArgumentException($"The scans are on {scans.Grid}; the sources were prepared for {_grid}.", nameof(scans));
        }

        var sources = ImmutableArray.CreateBuilder<UncertaintySource>(8);
        if ((scans.Diffuse is null ? _repeatabilityOfTotal : _repeatabilityOfBoth) is { } repeatability)
        {
            sources.Add(repeatability);
        }

        Add(sources, scans, "0 % offset", _inputs.ZeroOffsetPercent / 100, ZeroOffset);
        Add(sources, scans, "100 % line drift", _inputs.HundredLineDriftPercent / 100, HundredLineDrift);
        Add(sources, scans, "Photometric linearity", _inputs.LinearityPercent / 100, Linearity);
        Add(sources, scans, "Wavelength scale", _inputs.WavelengthShiftNm, (fractions, _) => _wavelengthShift!.Of(fractions));
        Add(sources, scans, "Stray light", _inputs.StrayLightPercent / 100, StrayLight);
        Add(sources, scans, "Bandpass", _inputs.BandpassNm, (fractions, _) => _bandpass!.Of(fractions), ErrorDistribution.Rectangular);
        if (!_inputs.Specimens.IsDefaultOrEmpty)
        {
            sources.Add(SpecimenSpread.Of(_inputs.Specimens, scans));
        }

        return sources.DrainToImmutable();
    }

    private static void Add(
        ImmutableArray<UncertaintySource>.Builder sources,
        TransmittanceScans scans,
        string name,
        double size,
        Deviation deviation,
        ErrorDistribution distribution = ErrorDistribution.Normal)
    {
        if (size > 0)
        {
            sources.Add(new UncertaintySource(
                name,
                SourceCorrelation.WholeSpectrum,
                distribution,
                double.PositiveInfinity,
                [(deviation(scans.Total.Fractions, size), scans.Diffuse is { } diffuse ? deviation(diffuse.Fractions, size) : [])]));
        }
    }

    private static double[]? Repeatability(UncertaintyInputs inputs, WavelengthGrid grid)
    {
        if (inputs.RepeatabilityPercentByWavelength is { } byWavelength)
        {
            if (byWavelength.Grid != grid)
            {
                throw new ArgumentException($"The repeatability is on {byWavelength.Grid}, the scans on {grid}.", nameof(inputs));
            }

            double[] sizes = byWavelength.Values.ToArray();
            Array.ForEach(sizes, size => Require(size, nameof(inputs.RepeatabilityPercentByWavelength)));
            return Array.ConvertAll(sizes, size => size / 100);
        }

        Require(inputs.RepeatabilityPercent, nameof(inputs.RepeatabilityPercent));
        return inputs.RepeatabilityPercent > 0 ? [.. Enumerable.Repeat(inputs.RepeatabilityPercent / 100, grid.Count)] : null;
    }

    private static UncertaintySource PerWavelength(double[] total, double[] diffuse, UncertaintyInputs inputs) => new(
        "Repeatability", SourceCorrelation.PerWavelength, ErrorDistribution.Normal, inputs.RepeatabilityDegreesOfFreedom, [(total, diffuse)]);

    private static double[] ZeroOffset(ReadOnlySpan<double> fractions, double size)
    {
        var result = new double[fractions.Length];
        for (int i = 0; i < result.Length; i++)
        {
            result[i] = (fractions[i] - 1) * size;
        }

        return result;
    }

    private static double[] HundredLineDrift(ReadOnlySpan<double> fractions, double size)
    {
        var result = new double[fractions.Length];
        for (int i = 0; i < result.Length; i++)
        {
            result[i] = fractions[i] * size;
        }

        return result;
    }

    private static double[] Linearity(ReadOnlySpan<double> fractions, double size)
    {
        var result = new double[fractions.Length];
        for (int i = 0; i < result.Length; i++)
        {
            result[i] = 4 * fractions[i] * (1 - fractions[i]) * size;
        }

        return result;
    }

    private static double[] StrayLight(ReadOnlySpan<double> fractions, double size)
    {
        double sum = 0;
        foreach (double fraction in fractions)
        {
            sum += fraction;
        }

        double mean = sum / fractions.Length;
        var result = new double[fractions.Length];
        for (int i = 0; i < result.Length; i++)
        {
            result[i] = (mean - fractions[i]) * size;
        }

        return result;
    }

    private static void Require(double value, string field)
    {
        if (!(value >= 0 && double.IsFinite(value)))
        {
            throw new ArgumentOutOfRangeException(field, value, FormattableString.Invariant($"{field} was {value}; expected a finite number, 0 or more."));
        }
    }
}

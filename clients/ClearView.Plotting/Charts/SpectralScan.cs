using System.Collections.Immutable;

using ClearView.Plotting.Model;
using ClearView.V1;

using Google.Protobuf.Collections;

namespace ClearView.Plotting.Charts;

/// <summary>The reduced spectra of one reading, checked, with what every spectral chart draws from them.</summary>
internal sealed class SpectralScan
{
    public const double DimFraction = 0.02;
    public const string XLabel = "Wavelength (nm)";

    private const int MarksPerLine = 10;

    private static readonly SeriesLook UncertaintyLook = new(LineKind.None, MarkKind.None, Ink.Grey) { Fill = FillKind.Light };

    private SpectralScan(ChartReading reading, TransmittanceSpectra spectra, double[] nm)
    {
        Reading = reading;
        Spectra = spectra;
        Nm = nm;
    }

    public ChartReading Reading { get; }

    public TransmittanceSpectra Spectra { get; }

    public double[] Nm { get; }

    public bool HasDiffuse => Spectra.DiffuseFraction.Count > 0;

    /// <exception cref="ChartRefusedException">The reading has no spectra, or they do not fit their grid.</exception>
    public static SpectralScan Of(ChartReading reading)
    {
        if (reading.Measurement.Scans?.FormCase == Scans.FormOneofCase.Hazemeter)
        {
            throw new ChartRefusedException(
                $"Specimen {reading.Specimen} was read on a hazemeter: four luminous readings hold no spectrum. "
                + "Choose a reading with spectral scans, or show its haze in the chart of a run.");
        }

        TransmittanceSpectra spectra = reading.Evaluation.Spectra is { Grid: not null, TotalFraction.Count: > 0 } given
            ? given
            : throw new ChartRefusedException(
                $"The reading of specimen {reading.Specimen} came without its reduced spectra. Ask for it with spectra.");
        double[] nm = Wording.Wavelengths(spectra.Grid);
        int[] counts =
        [
            spectra.TotalFraction.Count, spectra.DiffuseFraction.Count, spectra.RegularFraction.Count, spectra.HazePercent.Count,
            spectra.TotalStandardUncertaintyFraction.Count, spectra.DiffuseStandardUncertaintyFraction.Count, spectra.HazeStandardUncertaintyPercent.Count,
        ];
        return nm.Length > 1 && counts.All(count => count == 0 || count == nm.Length)
            ? new SpectralScan(reading, spectra, nm)
            : throw new ChartRefusedException(
                $"The spectra have {string.Join(", ", counts)} values on a grid of {nm.Length} wavelengths; they must match.");
    }

    /// <summary>Whether enough light passes at a wavelength for a ratio to it to be more than noise.</summary>
    public bool IsBright(int index) => Spectra.TotalFraction[index] >= DimFraction;

    /// <summary>A note where some wavelengths are too dark for a haze.</summary>
    public ImmutableArray<string> DimNote()
    {
        int dim = Spectra.HazePercent.Where((_, i) => !IsBright(i)).Count();
        return dim == 0
            ? []
            : [$"Note: Total transmittance is below {Wording.Number(100 * DimFraction)} % at {dim} {(dim == 1 ? "wavelength" : "wavelengths")}; the haze there is mostly noise and may leave its panel."];
    }

    public SeriesModel Line(RepeatedField<double> values, double scale, string label, SeriesLook look, int offset)
    {
        int every = Math.Max(1, Nm.Length / MarksPerLine);
        return new SeriesModel
        {
            Label = label,
            Look = look,
            Points = [.. Nm.Select((wavelength, i) => new ChartPoint(wavelength, scale * values[i]))],
            MarkEvery = every,
            MarkOffset = Math.Min((offset + 1) * every / 6, Nm.Length - 1),
        };
    }

    /// <summary>The band of expanded uncertainty around a line; none where the wire carries no uncertainty for it.</summary>
    public IEnumerable<SeriesModel> Ribbon(RepeatedField<double> values, RepeatedField<double> uncertainties, double scale, Coverage coverage) =>
        uncertainties.Count == 0 || values.Count == 0
            ? []
            :
            [
                new SeriesModel
                {
                    Label = coverage.Label,
                    Look = UncertaintyLook,
                    Points = [],
                    Ribbon =
                    [
                        .. Nm.Select((wavelength, i) => new RangeModel(
                            wavelength,
                            scale * (values[i] - (coverage.Factor * uncertainties[i])),
                            scale * (values[i] + (coverage.Factor * uncertainties[i])))),
                    ],
                },
            ];

    /// <summary>Everything that a vertical axis has to reach over: points and bands, dim wavelengths left out where asked.</summary>
    public IEnumerable<double> Extent(IEnumerable<SeriesModel> series, bool brightOnly) => series.SelectMany(one =>
        one.Points.Where((_, i) => !brightOnly || IsBright(i)).Select(point => point.Y)
            .Concat(one.Ribbon.Where((_, i) => !brightOnly || IsBright(i)).SelectMany(slice => new[] { slice.Low, slice.High })));
}

using System.Collections.Immutable;

using ClearView.Plotting.Model;
using ClearView.V1;

using Google.Protobuf.Collections;

namespace ClearView.Plotting.Charts;

/// <summary>Total, diffuse and regular transmittance of one specimen against wavelength, with the spectral haze.</summary>
/// <remarks>
/// Where diffuse transmittance keeps well below regular transmittance it is drawn beside the haze in the lower panel,
/// so that both panels can use their height.
/// </remarks>
public static class SpectralTransmittanceChart
{
    private const double LeastSpanPercent = 5;
    private const int MarksPerLine = 10;
    private const double DimFraction = 0.02;

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="reading">The specimen, with its reduced spectra.</param>
    /// <exception cref="ChartRefusedException">The reading has no spectra: a hazemeter's, or listed without them.</exception>
    public static ChartModel Build(ChartReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        TransmittanceSpectra spectra = Spectra(reading);
        double[] nm = Wavelengths(spectra);
        bool hasDiffuse = spectra.DiffuseFraction.Count > 0;
        bool apart = hasDiffuse && spectra.DiffuseFraction.Max() < spectra.RegularFraction.Min() / 2;

        ImmutableArray<BandModel> bands = SpectralRegions.Between(nm[0], nm[^1]);
        SeriesModel total = Line(nm, spectra.TotalFraction, 100, Names.Total, new(LineKind.Solid, MarkKind.None, Ink.Black), 0);
        if (!hasDiffuse)
        {
            return Chart(reading, spectra, [TransmittancePanel([total], nm, bands, XLabel)]);
        }

        SeriesModel regular = Line(nm, spectra.RegularFraction, 100, Names.Regular, new(LineKind.Dashed, MarkKind.OpenSquare, Ink.Blue), 2);
        SeriesModel diffuse = Line(nm, spectra.DiffuseFraction, 100, Names.Diffuse, new(LineKind.DashDotted, MarkKind.FilledTriangle, Ink.Vermilion), 4);
        SeriesModel haze = Line(nm, spectra.HazePercent, 1, Names.Haze, new(LineKind.Dotted, MarkKind.FilledCircle, Ink.Green) { LineWidth = 2 }, 0);

        PanelModel upper = TransmittancePanel(apart ? [total, regular] : [total, regular, diffuse], nm, bands, "");
        PanelModel lower = HazePanel(spectra, bands, apart ? [diffuse, haze] : [haze], nm, apart ? "Diffuse, haze (%)" : "Spectral haze (%)");
        return Chart(reading, spectra, [upper with { Weight = 1.1 }, lower]);
    }

    private const string XLabel = "Wavelength (nm)";

    private static ChartModel Chart(ChartReading reading, TransmittanceSpectra spectra, ImmutableArray<PanelModel> panels)
    {
        Method? method = reading.Evaluation.Method;
        string luminous = method is null
            ? "method not stated"
            : $"{Wording.Standard(method.HazeStandard)}, {Wording.Pair(method.Luminous)}";
        return new ChartModel
        {
            Title = panels.Length > 1 ? "Spectral transmittance and haze" : "Spectral transmittance",
            Subtitle = Wording.Specimen(reading),
            Panels = panels,
            Notes = Notes(reading, spectra),
            Footer =
            [
                $"Method: {luminous}. Scan {Wording.Grid(spectra.Grid)}. Haze = 100 × diffuse / total.",
                Wording.Source([reading]),
            ],
        };
    }

    private static ImmutableArray<string> Notes(ChartReading reading, TransmittanceSpectra spectra)
    {
        int dim = spectra.HazePercent.Where((_, i) => !IsBright(spectra, i)).Count();
        ImmutableArray<string> caveats = ChartNotes.Of([reading]);
        return dim == 0
            ? caveats
            : [.. caveats, $"Note: Total transmittance is below {Wording.Number(100 * DimFraction)} % at {dim} {(dim == 1 ? "wavelength" : "wavelengths")}; the haze there is mostly noise and may leave its panel."];
    }

    private static TransmittanceSpectra Spectra(ChartReading reading)
    {
        if (reading.Measurement.Scans?.FormCase == Scans.FormOneofCase.Hazemeter)
        {
            throw new ChartRefusedException(
                $"Specimen {reading.Specimen} was read on a hazemeter: four luminous readings hold no spectrum. "
                + "Choose a reading with spectral scans, or show its haze in the chart of a run.");
        }

        return reading.Evaluation.Spectra is { Grid: not null, TotalFraction.Count: > 0 } spectra
            ? spectra
            : throw new ChartRefusedException(
                $"The reading of specimen {reading.Specimen} came without its reduced spectra. Ask for it with spectra.");
    }

    private static double[] Wavelengths(TransmittanceSpectra spectra)
    {
        double[] nm = Wording.Wavelengths(spectra.Grid);
        int[] counts = [spectra.TotalFraction.Count, spectra.DiffuseFraction.Count, spectra.RegularFraction.Count, spectra.HazePercent.Count];
        return nm.Length > 1 && counts.All(count => count == 0 || count == nm.Length)
            ? nm
            : throw new ChartRefusedException(
                $"The spectra have {string.Join(", ", counts)} values on a grid of {nm.Length} wavelengths; they must match.");
    }

    private static SeriesModel Line(
        double[] nm, RepeatedField<double> values, double scale, string label, SeriesLook look, int offset)
    {
        int every = Math.Max(1, nm.Length / MarksPerLine);
        return new SeriesModel
        {
            Label = label,
            Look = look,
            Points = [.. nm.Select((wavelength, i) => new ChartPoint(wavelength, scale * values[i]))],
            MarkEvery = every,
            MarkOffset = Math.Min((offset + 1) * every / 6, nm.Length - 1),
        };
    }

    private static PanelModel TransmittancePanel(
        ImmutableArray<SeriesModel> series, double[] nm, ImmutableArray<BandModel> bands, string xLabel)
    {
        (double low, double high) = AxisRange.Around(series.SelectMany(s => s.Points).Select(p => p.Y), LeastSpanPercent);
        return new PanelModel
        {
            X = new AxisModel(xLabel, nm[0], nm[^1]) { ShowTickLabels = xLabel.Length > 0 },
            Y = new AxisModel("Transmittance (%)", low, high),
            Series = series,
            Bands = bands,
        };
    }

    private static PanelModel HazePanel(
        TransmittanceSpectra spectra, ImmutableArray<BandModel> bands, ImmutableArray<SeriesModel> series, double[] nm, string yLabel)
    {
        (double low, double high) = AxisRange.Around(
            series.SelectMany(s => s.Points.Where((_, i) => IsBright(spectra, i))).Select(p => p.Y).Append(0), 1);
        return new PanelModel
        {
            X = new AxisModel(XLabel, nm[0], nm[^1]),
            Y = new AxisModel(yLabel, low, high),
            Series = series,
            Bands = [.. bands.Select(band => band with { Label = "" })],
        };
    }

    /// <summary>Whether enough light passes at a wavelength for a ratio to it to be more than noise.</summary>
    private static bool IsBright(TransmittanceSpectra spectra, int index) => spectra.TotalFraction[index] >= DimFraction;

    private static class Names
    {
        public const string Total = "total transmittance";
        public const string Regular = "regular transmittance";
        public const string Diffuse = "diffuse transmittance";
        public const string Haze = "spectral haze";
    }
}

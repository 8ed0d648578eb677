using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Charts;

/// <summary>Total, diffuse and regular transmittance of one specimen against wavelength, with the spectral haze.</summary>
/// <remarks>
/// Where diffuse transmittance keeps well below regular transmittance it is drawn beside the haze in the lower panel,
/// so that both panels can use their height. The expanded uncertainty is a band around total and diffuse transmittance,
/// and around the haze where it stands alone.
/// </remarks>
public static class SpectralTransmittanceChart
{
    private const double LeastSpanPercent = 5;
    private const double TransmittanceWeight = 1.1;

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="reading">The specimen, with its reduced spectra.</param>
    /// <param name="withBands">Whether the named bands and those of the method are shown above the spectra, in place of the colours.</param>
    /// <exception cref="ChartRefusedException">The reading has no spectra: a hazemeter's, or listed without them.</exception>
    public static ChartModel Build(ChartReading reading, bool withBands = false)
    {
        ArgumentNullException.ThrowIfNull(reading);
        SpectralScan scan = SpectralScan.Of(reading);
        TransmittanceSpectra spectra = scan.Spectra;
        var coverage = Coverage.Of(reading.Evaluation, Measurands.LuminousTransmittance.Id, Measurands.Haze.Id);
        bool apart = scan.HasDiffuse && spectra.DiffuseFraction.Max() < spectra.RegularFraction.Min() / 2;

        SeriesModel total = scan.Line(spectra.TotalFraction, 100, Names.Total, new(LineKind.Solid, MarkKind.None, Ink.Black), 0);
        SeriesModel[] totalBand = [.. scan.Ribbon(spectra.TotalFraction, spectra.TotalStandardUncertaintyFraction, 100, coverage)];
        if (!scan.HasDiffuse)
        {
            return Chart(scan, withBands, [TransmittancePanel(scan, [.. totalBand, total], SpectralScan.XLabel)]);
        }

        SeriesModel[] diffuseBand = [.. scan.Ribbon(spectra.DiffuseFraction, spectra.DiffuseStandardUncertaintyFraction, 100, coverage)];
        SeriesModel[] hazeBand = [.. scan.Ribbon(spectra.HazePercent, spectra.HazeStandardUncertaintyPercent, 1, coverage)];
        SeriesModel regular = scan.Line(spectra.RegularFraction, 100, Names.Regular, new(LineKind.Dashed, MarkKind.OpenSquare, Ink.Blue), 2);
        SeriesModel diffuse = scan.Line(spectra.DiffuseFraction, 100, Names.Diffuse, new(LineKind.DashDotted, MarkKind.FilledTriangle, Ink.Vermilion), 4);
        SeriesModel haze = scan.Line(spectra.HazePercent, 1, Names.Haze, new(LineKind.Dotted, MarkKind.FilledCircle, Ink.Green) { LineWidth = 2 }, 0);

        PanelModel upper = TransmittancePanel(scan, apart ? [.. totalBand, total, regular] : [.. totalBand, .. diffuseBand, total, regular, diffuse], "");
        PanelModel lower = apart
            ? HazePanel(scan, [.. diffuseBand, diffuse, haze], "Diffuse, haze (%)")
            : HazePanel(scan, [.. hazeBand, haze], "Spectral haze (%)");
        return Chart(scan, withBands, [upper with { Weight = TransmittanceWeight }, lower]);
    }

    private static ChartModel Chart(SpectralScan scan, bool withBands, ImmutableArray<PanelModel> panels)
    {
        V1.Method? method = scan.Reading.Evaluation.Method;
        string luminous = method is null
            ? "method not stated"
            : $"{Wording.Standard(method.HazeStandard)}, {Wording.Pair(method.Luminous)}";
        var chart = new ChartModel
        {
            Title = panels.Length > 1 ? "Spectral transmittance and haze" : "Spectral transmittance",
            Subtitle = Wording.Specimen(scan.Reading),
            Panels = panels,
            Notes = [.. ChartNotes.Of([scan.Reading]), .. scan.DimNote()],
            Footer =
            [
                $"Method: {luminous}. Scan {Wording.Grid(scan.Spectra.Grid)}. Haze = 100 × diffuse / total.",
                Wording.Source([scan.Reading]),
            ],
        };
        return withBands ? BandStrip.Above(chart, scan) : chart with { Panels = SpectralRegions.Name(panels, scan) };
    }

    private static PanelModel TransmittancePanel(SpectralScan scan, ImmutableArray<SeriesModel> series, string xLabel)
    {
        (double low, double high) = AxisRange.Around(scan.Extent(series, brightOnly: false), LeastSpanPercent);
        return new PanelModel
        {
            X = new AxisModel(xLabel, scan.Nm[0], scan.Nm[^1]) { ShowTickLabels = xLabel.Length > 0 },
            Y = new AxisModel("Transmittance (%)", low, high),
            Series = series,
        };
    }

    private static PanelModel HazePanel(SpectralScan scan, ImmutableArray<SeriesModel> series, string yLabel)
    {
        (double low, double high) = AxisRange.Around(scan.Extent(series, brightOnly: true).Append(0), 1);
        return new PanelModel
        {
            X = new AxisModel(SpectralScan.XLabel, scan.Nm[0], scan.Nm[^1]),
            Y = new AxisModel(yLabel, low, high),
            Series = series,
        };
    }

    private static class Names
    {
        public const string Total = "total transmittance";
        public const string Regular = "regular transmittance";
        public const string Diffuse = "diffuse transmittance";
        public const string Haze = "spectral haze";
    }
}

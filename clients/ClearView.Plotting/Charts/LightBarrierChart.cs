using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission.Bands;
using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;
using ClearView.V1;

namespace ClearView.Plotting.Charts;

/// <summary>Total transmittance of container walls between 290 and 450 nm against the limit of the light-barrier screen.</summary>
public static class LightBarrierChart
{
    /// <summary>Most walls of one chart.</summary>
    public const int MostReadings = 8;

    private const double RoomNm = 8;
    private const double LabelRise = 0.05;

    private static readonly ImmutableArray<LineKind> Lines = [LineKind.Solid, LineKind.Dashed, LineKind.DashDotted, LineKind.Dotted];
    private static readonly SeriesLook LimitLook = new(LineKind.Dashed, MarkKind.None, Ink.Vermilion) { LineWidth = 2 };
    private static readonly SeriesLook WhiskerLook = new(LineKind.Solid, MarkKind.None, Ink.Black) { LineWidth = 1.2 };

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="readings">The walls, with their reduced spectra.</param>
    /// <exception cref="ChartRefusedException">There is no reading or too many, no wall was screened, or they are held against different limits.</exception>
    public static ChartModel Build(IReadOnlyList<ChartReading> readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        ChartReading[] screened = Require(readings);
        double limit = screened[0].Evaluation.LightBarrier.LimitPercent;
        SpectralScan[] scans = [.. screened.Select(SpectralScan.Of)];
        SeriesModel[] lines = [.. scans.Select(Line)];
        SeriesModel[] whiskers = [.. Whiskers(screened)];
        IEnumerable<double> reach = lines.SelectMany(line => line.Points).Select(point => point.Y)
            .Concat(whiskers.SelectMany(series => series.Whiskers).SelectMany(one => new[] { one.Low, one.High }))
            .Append(0).Append(limit);
        (_, double high) = AxisRange.Around(reach, limit);
        high += LabelRise * high;
        int above = screened.Count(reading => !reading.Evaluation.LightBarrier.WithinLimit);
        return new ChartModel
        {
            Title = "Light barrier 290-450 nm",
            Subtitle = Subtitle(screened, above, limit),
            Panels =
            [
                new PanelModel
                {
                    X = new AxisModel(SpectralScan.XLabel, LightBarrierScreen.Range.FromNm - RoomNm, LightBarrierScreen.Range.ToNm + RoomNm)
                    {
                        Ticks = [.. Enumerable.Range(0, 9).Select(i => 290 + (20 * i)).Select(nm => new AxisTick(nm, Wording.Number(nm)))],
                    },
                    Y = new AxisModel("Total transmittance (%)", -high / 40, high),
                    Series = [.. lines, .. whiskers],
                    ReferenceLines = [new(LineOrientation.Horizontal, limit, $"limit ≤ {Wording.Number(limit)} %", LimitLook)],
                    Annotations = screened.Length == 1 ? [Label(screened[0], high)] : [],
                },
            ],
            Notes =
            [
                .. screened.Select(reading => reading.Evaluation.LightBarrier.Caution).Distinct(StringComparer.Ordinal),
                .. Missing(readings, screened),
            ],
            Footer = [Foot(screened, scans), Wording.Source(screened)],
        };
    }

    private static ChartReading[] Require(IReadOnlyList<ChartReading> readings)
    {
        if (readings.Count == 0)
        {
            throw new ChartRefusedException("There is no reading to show. Widen the filters, or name files.");
        }

        ChartReading[] screened = [.. readings.Where(reading => reading.Evaluation.LightBarrier is not null)];
        if (screened.Length == 0)
        {
            throw new ChartRefusedException(readings.Select(NotMeasured).FirstOrDefault(message => message is not null) is { } message
                ? $"None of the {readings.Count} readings can be screened: {message}"
                : $"None of the {readings.Count} readings was screened: the method states no limit of the light barrier. "
                    + "Choose readings of a method that does, or give --light-barrier-limit with files.");
        }

        if (screened.Length > MostReadings)
        {
            throw new ChartRefusedException($"{screened.Length} walls cannot be told apart in one chart; at most {MostReadings} are drawn. Narrow the filters, or give --count or --id.");
        }

        double[] limits = [.. screened.Select(reading => reading.Evaluation.LightBarrier.LimitPercent).Distinct()];
        return limits.Length == 1
            ? screened
            : throw new ChartRefusedException(
                $"The walls are held against different limits ({string.Join(" %, ", limits.Select(Wording.Number))} %) and cannot share a chart. Choose readings of one.");
    }

    /// <summary>Why a reading was not screened although its method states a limit.</summary>
    private static string? NotMeasured(ChartReading reading) =>
        reading.Evaluation.Caveats.FirstOrDefault(caveat => caveat.Code == V1.CaveatCode.LightBarrierNotMeasured)?.Message;

    private static SeriesModel Line(SpectralScan scan, int index)
    {
        LightBarrier barrier = scan.Reading.Evaluation.LightBarrier;
        (double from, double to) = (LightBarrierScreen.Range.FromNm, LightBarrierScreen.Range.ToNm);
        ChartPoint[] inside =
        [
            .. scan.Nm.Zip(scan.Spectra.TotalFraction).Where(pair => pair.First >= from && pair.First <= to)
                .Select(pair => new ChartPoint(pair.First, 100 * pair.Second)),
        ];
        SeriesLook marks = SeriesLooks.Marks(index);
        // Only the greatest value is marked. It may lie between wavelengths of the scan, at an end of the range.
        ChartPoint greatest = new(barrier.MaximumAtNm, barrier.MaximumPercent);
        ChartPoint[] points = [.. inside.Where(point => point.X != greatest.X).Append(greatest).OrderBy(point => point.X)];
        return new SeriesModel
        {
            Label = $"{Name(scan.Reading)}: {Result(scan.Reading)}",
            Look = marks with { Line = Lines[index % Lines.Length], MarkSize = 10 },
            Points = [.. points],
            MarkOnly = Array.IndexOf(points, greatest),
        };
    }

    private static IEnumerable<SeriesModel> Whiskers(ChartReading[] readings)
    {
        (LightBarrier Barrier, Uncertainty Uncertainty)[] uncertain =
            [.. readings.Where(reading => UncertaintyOf(reading) is not null).Select(reading => (reading.Evaluation.LightBarrier, UncertaintyOf(reading)!))];
        if (uncertain.Length > 0)
        {
            yield return new SeriesModel
            {
                Label = $"{Coverage.LabelOf(uncertain.Select(pair => pair.Uncertainty))}, of the greatest value",
                Look = WhiskerLook,
                Points = [],
                Whiskers =
                [
                    .. uncertain.Select(pair => new WhiskerModel(
                        LineOrientation.Vertical,
                        pair.Barrier.MaximumAtNm,
                        pair.Barrier.MaximumPercent - pair.Uncertainty.ExpandedUncertainty,
                        pair.Barrier.MaximumPercent + pair.Uncertainty.ExpandedUncertainty)),
                ],
            };
        }
    }

    private static Uncertainty? UncertaintyOf(ChartReading reading) => reading.Find(Measurands.LightBarrierMaximum.Id)?.Uncertainty;

    private static AnnotationModel Label(ChartReading reading, double high)
    {
        LightBarrier barrier = reading.Evaluation.LightBarrier;
        double middle = (LightBarrierScreen.Range.FromNm + LightBarrierScreen.Range.ToNm) / 2;
        AnnotationAnchor side = barrier.MaximumAtNm > middle ? AnnotationAnchor.Left : AnnotationAnchor.Right;
        return new AnnotationModel(barrier.MaximumAtNm, barrier.MaximumPercent + (LabelRise * high), Result(reading), side) { Bold = true, Transparent = true };
    }

    /// <summary>Greatest value, where, and how it stands to the limit, with a warning where the uncertainty does not settle it.</summary>
    private static string Result(ChartReading reading)
    {
        LightBarrier barrier = reading.Evaluation.LightBarrier;
        Uncertainty? uncertainty = UncertaintyOf(reading);
        string value = uncertainty is null
            ? $"{Wording.Number(Math.Round(barrier.MaximumPercent, 2))} %"
            : $"({Digits.Beside(barrier.MaximumPercent, uncertainty.ExpandedUncertainty)} ± {Digits.Two(uncertainty.ExpandedUncertainty)}) %";
        string verdict = barrier.WithinLimit ? "within the limit" : "above the limit";
        string open = uncertainty is not null && Math.Abs(barrier.MaximumPercent - barrier.LimitPercent) < uncertainty.ExpandedUncertainty
            ? " (by less than U)"
            : "";
        return $"{value} at {Wording.Number(Math.Round(barrier.MaximumAtNm, 1))} nm, {verdict}{open}";
    }

    private static string Name(ChartReading reading) => Wording.SpecimenAndPlace(reading);

    private static string Subtitle(ChartReading[] screened, int above, double limit)
    {
        string verdict = screened.Length == 1
            ? $"greatest transmittance {(above == 0 ? "within" : "above")} the limit of {Wording.Number(limit)} %"
            : above == 0 ? $"all {screened.Length} within the limit of {Wording.Number(limit)} %" : $"{above} of {screened.Length} above the limit of {Wording.Number(limit)} %";
        return $"{(screened.Length == 1 ? Wording.Specimen(screened[0]) : ColourBasis.Subtitle(screened))}: {verdict}";
    }

    private static string[] Missing(IReadOnlyList<ChartReading> readings, ChartReading[] screened) => readings.Count == screened.Length
        ? []
        : [$"Note: {readings.Count - screened.Length} of {readings.Count} readings were not screened and are not shown."];

    private static string Foot(ChartReading[] screened, SpectralScan[] scans)
    {
        string grids = string.Join("; ", scans.Select(scan => Wording.Grid(scan.Spectra.Grid)).Distinct(StringComparer.Ordinal));
        string geometry = string.Join("; ", screened.Select(reading => reading.Evaluation.Method).OfType<V1.Method>()
            .Select(method => Wording.Standard(method.HazeStandard)).Distinct(StringComparer.Ordinal));
        return $"Method: greatest total transmittance 290-450 nm, spectral, for no illuminant or observer ({geometry}). Scan {grids}.";
    }
}

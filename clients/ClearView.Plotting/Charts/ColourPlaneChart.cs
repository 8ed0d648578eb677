using System.Collections.Immutable;
using System.Globalization;

using ClearView.Optics.Evaluations;
using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

namespace ClearView.Plotting.Charts;

/// <summary>The a*b* plane of CIELAB with L* beside it, marks by product, roll or specimen.</summary>
public static class ColourPlaneChart
{
    private const double LeastSpan = 1;
    private const int ManyReadings = 40;
    private const double ManyMarkPt = 5;
    private const double FewMarkPt = 9;

    private static readonly SeriesLook NeutralLook = new(LineKind.Solid, MarkKind.None, Ink.Grey) { LineWidth = 1 };

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="readings">The readings.</param>
    /// <exception cref="ChartRefusedException">There is no reading, none has a colour, or they hold for different lights.</exception>
    public static ChartModel Build(IReadOnlyList<ChartReading> readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        ChartReading[] coloured = ColourBasis.Require(readings, Measurands.CielabA);
        ImmutableArray<ReadingGroup> groups = ReadingGroup.Split(coloured, SeriesLooks.MarkCount);
        double size = coloured.Length > ManyReadings ? ManyMarkPt : FewMarkPt;
        return new ChartModel
        {
            Title = "Transmitted colour, CIELAB",
            Subtitle = ColourBasis.Subtitle(coloured),
            Arrangement = PanelArrangement.Beside,
            Panels = [PlanePanel(groups, size), LightnessPanel(groups, size)],
            Notes = [.. ColourBasis.MissingNote(readings.Count, coloured.Length), .. ChartNotes.Of(coloured, Measurands.CielabA.Id)],
            Footer = [ColourBasis.Footer(coloured, Measurands.CielabA), Wording.Source(coloured)],
        };
    }

    private static PanelModel PlanePanel(ImmutableArray<ReadingGroup> groups, double size)
    {
        ImmutableArray<SeriesModel> series =
        [
            .. groups.Select((group, index) => Series(group, index, size, (reading, _) => new ChartPoint(
                ColourBasis.Number(reading, Measurands.CielabA), ColourBasis.Number(reading, Measurands.CielabB)))),
        ];
        SeriesModel[] whiskers =
        [
            .. ColourWhiskers.Of(groups.SelectMany(group => group.Readings), (reading, _) =>
            [
                (LineOrientation.Horizontal, ColourBasis.Number(reading, Measurands.CielabB), reading.Find(Measurands.CielabA.Id)),
                (LineOrientation.Vertical, ColourBasis.Number(reading, Measurands.CielabA), reading.Find(Measurands.CielabB.Id)),
            ]),
        ];
        (double left, double right) = AxisRange.Around(
            series.SelectMany(s => s.Points).Select(p => p.X).Append(0).Concat(ColourWhiskers.Reach(whiskers, LineOrientation.Horizontal)), LeastSpan);
        (double bottom, double top) = AxisRange.Around(
            series.SelectMany(s => s.Points).Select(p => p.Y).Append(0).Concat(ColourWhiskers.Reach(whiskers, LineOrientation.Vertical)), LeastSpan);
        return new PanelModel
        {
            X = new AxisModel("a* (− green, + red)", left, right),
            Y = new AxisModel("b* (− blue, + yellow)", bottom, top),
            Series = [.. whiskers, .. series],
            EqualScale = true,
            ReferenceLines =
            [
                new(LineOrientation.Horizontal, 0, "", NeutralLook),
                new(LineOrientation.Vertical, 0, "", NeutralLook),
            ],
            Weight = 1.5,
        };
    }

    private static PanelModel LightnessPanel(ImmutableArray<ReadingGroup> groups, double size)
    {
        int coloured = groups.Sum(group => group.Readings.Length);
        ImmutableArray<SeriesModel> series =
        [
            .. groups.Select((group, index) => Series(group, index, size, (reading, place) =>
                new ChartPoint(index + 1 + Spread(place, group.Readings.Length), ColourBasis.Number(reading, Measurands.CielabL)))),
        ];
        SeriesModel[] whiskers =
        [
            .. groups.SelectMany((group, index) => ColourWhiskers.Of(group.Readings, (reading, place) =>
                [(LineOrientation.Vertical, index + 1 + Spread(place, group.Readings.Length), reading.Find(Measurands.CielabL.Id))])),
        ];
        (double low, double high) = AxisRange.Around(
            series.SelectMany(s => s.Points).Select(p => p.Y).Concat(ColourWhiskers.Reach(whiskers, LineOrientation.Vertical)), LeastSpan);
        return new PanelModel
        {
            X = new AxisModel(groups.Length > 1 ? "groups in legend order, each by time" : coloured > 1 ? "readings by time" : "the reading", 0.4, groups.Length + 0.6)
            {
                Ticks = [.. groups.Select((_, index) => new AxisTick(index + 1, (index + 1).ToString(CultureInfo.InvariantCulture)))],
            },
            Y = new AxisModel("L* (100: perfect transmitter)", low, high),
            Series = [.. whiskers, .. series],
        };
    }

    /// <summary>Places of a group's readings side by side, within 0.35 of the group's own place.</summary>
    private static double Spread(int place, int count) => count == 1 ? 0 : 0.7 * (((double)place / (count - 1)) - 0.5);

    private static SeriesModel Series(ReadingGroup group, int index, double size, Func<ChartReading, int, ChartPoint> place) => new()
    {
        Label = group.Label,
        Look = SeriesLooks.Marks(index) with { MarkSize = size },
        Points = [.. group.Readings.Select(place)],
    };
}

using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;
using ClearView.V1;

using MeasuredValue = ClearView.V1.MeasuredValue;

namespace ClearView.Plotting.Charts;

/// <summary>Measurands by region of a bottle's wall: least, mean and greatest value with every reading.</summary>
public static class WallChart
{
    /// <summary>Most measurands of one chart.</summary>
    public const int MostMeasurands = 4;

    private const int MostColumns = 16;
    private const double PointsReach = 0.26;
    private const double MeanReach = 0.34;
    private const double RangeShift = 0.42;
    private const double LeastSpanShare = 0.02;
    private const float PanelPt = 185;
    private const float OutsidePt = 150;
    private const float LeastHeightPt = 500;

    private static readonly ImmutableArray<WallRegion> Regions = [WallRegion.Panel, WallRegion.Shoulder, WallRegion.Base, WallRegion.LabelArea];
    private static readonly SeriesLook RangeLook = new(LineKind.Solid, MarkKind.None, Ink.Black) { LineWidth = 1.4 };
    private static readonly SeriesLook MeanLook = new(LineKind.Solid, MarkKind.None, Ink.Green) { LineWidth = 2.4 };

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="readings">The readings; those without a region of a wall are left out with a note.</param>
    /// <param name="measurands">Identifiers of the measurands; empty for luminous transmittance and haze.</param>
    /// <exception cref="ChartRefusedException">No reading names a region of a wall, none gives a measurand, or there are too many measurands or products.</exception>
    public static ChartModel Build(IReadOnlyList<ChartReading> readings, IReadOnlyList<string> measurands)
    {
        ArgumentNullException.ThrowIfNull(readings);
        ArgumentNullException.ThrowIfNull(measurands);
        ChartReading[] placed = [.. readings.Where(reading => Region(reading) is not null).OrderBy(reading => reading.MeasuredAtUtc)];
        if (placed.Length == 0)
        {
            throw new ChartRefusedException(readings.Count == 0
                ? "There is no reading to show. Widen the filters, or name files."
                : $"None of the {readings.Count} readings names a region of a bottle's wall. Choose readings of bottles, or give the region with the files.");
        }

        string[] chosen = Choose(placed, measurands);
        WallColumn[] columns = WallColumn.Of(placed);
        if (columns.Length > MostColumns)
        {
            throw new ChartRefusedException($"{columns.Length} regions of as many products are too many for one chart; at most {MostColumns} are drawn. Narrow the filters.");
        }

        ImmutableArray<ReadingGroup> groups = ReadingGroup.Split(placed, SeriesLooks.MarkCount);
        MeasuredValue[] values = [.. chosen.Select(id => placed.Select(reading => reading.Find(id)).First(value => value is not null)!)];
        return new ChartModel
        {
            Title = "Bottle walls by region",
            Subtitle = ColourBasis.Subtitle(placed),
            Panels = [.. values.Select((value, i) => Panel(value, columns, groups, first: i == 0, last: i == values.Length - 1))],
            HeightPt = Math.Max(LeastHeightPt, OutsidePt + (PanelPt * values.Length)),
            Notes = [.. Missing(readings.Count, placed.Length), .. ChartNotes.Of(placed, chosen)],
            Footer =
            [
                $"Method: {string.Join("; ", values.GroupBy(Wording.Basis, StringComparer.Ordinal).Select(group => $"{string.Join(", ", group.Select(v => v.Symbol))}: {group.Key}"))}.",
                Wording.Source(placed),
            ],
        };
    }

    /// <summary>Region of a reading on a wall; <see langword="null"/> where it names none.</summary>
    internal static WallRegion? Region(ChartReading reading) =>
        reading.Measurement.Identification is { PositionCase: Identification.PositionOneofCase.Wall, Wall.Region: var region } && Regions.Contains(region)
            ? region
            : null;

    private static string[] Choose(ChartReading[] readings, IReadOnlyList<string> measurands)
    {
        string[] asked = measurands.Count > 0 ? [.. measurands.Distinct(StringComparer.Ordinal)] : [Measurands.LuminousTransmittance.Id, Measurands.Haze.Id];
        if (asked.Length > MostMeasurands)
        {
            throw new ChartRefusedException($"{asked.Length} measurands are too many for one chart; at most {MostMeasurands} are drawn.");
        }

        string[] given = [.. asked.Where(id => readings.Any(reading => reading.Find(id) is not null))];
        bool enough = measurands.Count > 0 ? given.Length == asked.Length : given.Length > 0;
        return enough
            ? given
            : throw new ChartRefusedException(
                $"None of the {readings.Length} readings gives \"{asked.First(id => !given.Contains(id))}\". They give: "
                + string.Join(", ", readings.SelectMany(r => r.Evaluation.Values).Select(v => v.Measurand).Distinct()) + ".");
    }

    private static PanelModel Panel(MeasuredValue measurand, WallColumn[] columns, ImmutableArray<ReadingGroup> groups, bool first, bool last)
    {
        (double X, double[] Values)[] filled =
        [
            .. columns.Select((column, i) => (X: i + 1.0, Values: column.Values(measurand.Measurand))).Where(pair => pair.Values.Length > 0),
        ];
        double span = filled.SelectMany(pair => pair.Values).Max(Math.Abs) * LeastSpanShare;
        (double low, double high) = AxisRange.Around(filled.SelectMany(pair => pair.Values), Math.Max(span, 1e-6));
        ChartPoint gap = new(double.NaN, double.NaN);
        return new PanelModel
        {
            X = new AxisModel(last ? "Region of the wall (number of readings)" : "", 0.4, columns.Length + 0.6)
            {
                Ticks = [.. columns.Select((column, i) => new AxisTick(i + 1, $"{column.Region} ({column.Readings.Length})"))],
                ShowTickLabels = last,
            },
            Heading = measurand.Name,
            Y = new AxisModel($"{measurand.Symbol}{(measurand.Unit.Length > 0 ? $" ({measurand.Unit})" : "")}", low, high),
            Bands = WallColumn.Bands(columns, named: first),
            Series =
            [
                new SeriesModel
                {
                    Label = "least to greatest",
                    Look = RangeLook,
                    Points = [],
                    Whiskers = [.. filled.Select(pair => new WhiskerModel(LineOrientation.Vertical, pair.X + RangeShift, pair.Values.Min(), pair.Values.Max()))],
                },
                new SeriesModel
                {
                    Label = "mean",
                    Look = MeanLook,
                    Points = [.. filled.SelectMany(pair => new[] { new(pair.X - MeanReach, pair.Values.Average()), new(pair.X + MeanReach, pair.Values.Average()), gap })],
                },
                .. groups.Select((group, i) => Marks(measurand.Measurand, columns, group, i)),
            ],
        };
    }

    private static SeriesModel Marks(string measurand, WallColumn[] columns, ReadingGroup group, int index) => new()
    {
        Label = group.Label,
        Look = SeriesLooks.Marks(index),
        Points =
        [
            .. columns.SelectMany((column, i) => column.Readings
                .Select((reading, place) => (Reading: reading, X: i + 1 + Spread(place, column.Readings.Length)))
                .Where(pair => group.Readings.Contains(pair.Reading) && pair.Reading.Find(measurand) is not null)
                .Select(pair => new ChartPoint(pair.X, pair.Reading.Find(measurand)!.Value))),
        ],
    };

    private static double Spread(int place, int count) => count == 1 ? 0 : PointsReach * ((2.0 * place / (count - 1)) - 1);

    private static string[] Missing(int all, int placed) => all == placed
        ? []
        : [$"Note: {all - placed} of {all} readings name no region of a wall and are not shown."];
}

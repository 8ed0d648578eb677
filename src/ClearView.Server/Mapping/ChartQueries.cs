using ClearView.Records.Model;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Server.Mapping;

/// <summary>The stored readings of a chart: queries of the store, and whether a reading is one of them.</summary>
internal static class ChartQueries
{
    /// <summary>The query of a chart's readings.</summary>
    /// <param name="chart">The chart, checked.</param>
    /// <param name="from">Measured at this time or later; <see langword="null"/> for all.</param>
    /// <param name="before">Measured before this time; <see langword="null"/> for all.</param>
    public static SeriesQuery Read(ControlChart chart, Timestamp? from = null, Timestamp? before = null) =>
        SeriesQueries.Read(chart.Series, from, before) with { OmitPlaces = true, Label = LabelOf(chart) };

    /// <summary>Whether a reading belongs to a chart, leaving aside the measurand.</summary>
    public static bool Holds(SeriesFilter filter, ReadingEntry entry) =>
        Fits(filter.Line, entry.Line)
        && Fits(filter.Product, entry.Product)
        && Fits(filter.Lot, entry.Lot)
        && Fits(filter.Roll, entry.Roll)
        && Fits(filter.Instrument, entry.Instrument);

    /// <summary>The label of a reading on a chart.</summary>
    public static string LabelOf(ControlChart chart, ReadingEntry entry) => LabelOf(chart) switch
    {
        SeriesLabel.Roll => entry.Roll,
        SeriesLabel.Lot => entry.Lot,
        _ => "",
    };

    private static SeriesLabel LabelOf(ControlChart chart) => chart.Subgrouping switch
    {
        { ByCase: Subgrouping.ByOneofCase.Label, Label: SubgroupLabel.Roll } => SeriesLabel.Roll,
        { ByCase: Subgrouping.ByOneofCase.Label, Label: SubgroupLabel.Lot } => SeriesLabel.Lot,
        _ => SeriesLabel.None,
    };

    private static bool Fits(string wanted, string own) => wanted.Length == 0 || wanted == own;
}

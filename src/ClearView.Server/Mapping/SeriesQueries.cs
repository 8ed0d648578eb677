using ClearView.Records.Model;
using ClearView.V1;

namespace ClearView.Server.Mapping;

/// <summary>Which stored readings make a series, or a lot, to queries of the store. What they read has been checked.</summary>
internal static class SeriesQueries
{
    /// <summary>The query of a series, without labels.</summary>
    public static SeriesQuery Read(StoredSeries stored) => new()
    {
        Measurand = stored.Filter.Measurand,
        Line = Text(stored.Filter.Line),
        Product = Text(stored.Filter.Product),
        Lot = Text(stored.Filter.Lot),
        Roll = Text(stored.Filter.Roll),
        Instrument = Text(stored.Filter.Instrument),
        MeasuredFrom = stored.Span?.MeasuredFrom?.ToDateTimeOffset(),
        MeasuredBefore = stored.Span?.MeasuredBefore?.ToDateTimeOffset(),
    };

    /// <summary>The query of the readings of one lot.</summary>
    public static ReadingQuery Read(StoredLots stored, string lot) => new()
    {
        Lot = lot,
        Product = Text(stored.Product),
        Line = Text(stored.Line),
        MeasuredFrom = stored.Span?.MeasuredFrom?.ToDateTimeOffset(),
        MeasuredBefore = stored.Span?.MeasuredBefore?.ToDateTimeOffset(),
    };

    private static string? Text(string value) => value.Length == 0 ? null : value;
}

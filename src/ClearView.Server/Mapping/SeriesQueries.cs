using ClearView.Records.Model;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Server.Mapping;

/// <summary>Which stored readings make a series, or a lot, to queries of the store. What they read has been checked.</summary>
internal static class SeriesQueries
{
    /// <summary>The query of a series, without labels.</summary>
    public static SeriesQuery Read(StoredSeries stored) => Read(stored.Filter, stored.Span?.MeasuredFrom, stored.Span?.MeasuredBefore);

    /// <summary>The query of a series, without labels.</summary>
    /// <param name="filter">The filter.</param>
    /// <param name="from">Measured at this time or later; <see langword="null"/> for all.</param>
    /// <param name="before">Measured before this time; <see langword="null"/> for all.</param>
    public static SeriesQuery Read(SeriesFilter filter, Timestamp? from, Timestamp? before) => new()
    {
        Measurand = filter.Measurand,
        Line = Text(filter.Line),
        Product = Text(filter.Product),
        Lot = Text(filter.Lot),
        Roll = Text(filter.Roll),
        Instrument = Text(filter.Instrument),
        MeasuredFrom = from?.ToDateTimeOffset(),
        MeasuredBefore = before?.ToDateTimeOffset(),
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

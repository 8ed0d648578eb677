using ClearView.Contract.Series;
using ClearView.Contract.Validation;
using ClearView.Records.Model;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Server.Mapping;

/// <summary>Requests for a list to queries of the store.</summary>
internal static class ListQueries
{
    private const int DefaultPageSize = 100;
    private const int MaxPageSize = 1000;

    /// <summary>Reads a request.</summary>
    /// <param name="request">The request.</param>
    /// <param name="violations">Takes every field at fault.</param>
    /// <param name="timePath">What stands before the names of the times in violations.</param>
    /// <returns>The query; meaningful only where no violation was added.</returns>
    public static ReadingQuery Read(ListReadingsRequest request, Violations violations, string timePath = "")
    {
        if (request.PageSize is < 0 or > MaxPageSize)
        {
            violations.Add("page_size", $"{request.PageSize}; expected 1 to {MaxPageSize}, or 0 for {DefaultPageSize}.");
        }

        string? Text(string field, string value)
        {
            violations.CheckText(field, value);
            return value.Length == 0 ? null : value;
        }

        DateTimeOffset? Time(string field, Timestamp? value) =>
            value is not null && TimestampRules.ReadTicks(value, timePath + field, violations) is { } ticks ? new DateTimeOffset(ticks, TimeSpan.Zero) : null;

        var query = new ReadingQuery
        {
            PageSize = request.PageSize == 0 ? DefaultPageSize : request.PageSize,
            Order = request.NewestFirst ? ReadingOrder.NewestFirst : ReadingOrder.OldestFirst,
            Line = Text("line", request.Line),
            Product = Text("product", request.Product),
            Lot = Text("lot", request.Lot),
            Roll = Text("roll", request.Roll),
            Specimen = Text("specimen", request.Specimen),
            MeasuredFrom = Time("measured_from", request.MeasuredFrom),
            MeasuredBefore = Time("measured_before", request.MeasuredBefore),
        };
        if (query.MeasuredFrom >= query.MeasuredBefore)
        {
            violations.Add(timePath + "measured_before", $"{query.MeasuredBefore:O}; expected a time later than measured_from, {query.MeasuredFrom:O}.");
        }

        if (request.PageToken.Length == 0)
        {
            return query;
        }

        if (!PageTokens.TryRead(request, out var position, out var problem))
        {
            violations.Add("page_token", $"{problem}");
        }

        return query with { After = position };
    }
}

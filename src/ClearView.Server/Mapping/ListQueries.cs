using System.Globalization;

using ClearView.Records.Model;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Server.Mapping;

/// <summary>Requests for a list to queries of the store.</summary>
internal static class ListQueries
{
    private const int DefaultPageSize = 100;
    private const int MaxPageSize = 1000;
    private const int MaxTextLength = 100;
    private const long MinSeconds = -62_135_596_800;
    private const long MaxSeconds = 253_402_300_799;
    private const int NanosPerSecond = 1_000_000_000;

    /// <summary>Reads a request.</summary>
    /// <param name="request">The request.</param>
    /// <param name="violations">Takes every field at fault.</param>
    /// <returns>The query; meaningful only where no violation was added.</returns>
    public static ReadingQuery Read(ListReadingsRequest request, List<FieldViolation> violations)
    {
        void Fault(string field, string description) =>
            violations.Add(new FieldViolation { Field = field, Description = description });

        if (request.PageSize is < 0 or > MaxPageSize)
        {
            Fault("page_size", string.Create(CultureInfo.InvariantCulture, $"{request.PageSize}; expected 1 to {MaxPageSize}, or 0 for {DefaultPageSize}."));
        }

        string? Text(string field, string value)
        {
            if (value.Length > MaxTextLength)
            {
                Fault(field, string.Create(CultureInfo.InvariantCulture, $"{value.Length} characters; expected up to {MaxTextLength}."));
            }

            return value.Length == 0 ? null : value;
        }

        DateTimeOffset? Time(string field, Timestamp? value)
        {
            if (value is not null && (value.Seconds is < MinSeconds or > MaxSeconds || value.Nanos is < 0 or >= NanosPerSecond))
            {
                Fault(field, string.Create(CultureInfo.InvariantCulture, $"{value.Seconds} s and {value.Nanos} ns; expected a time in the years 1 to 9999, with 0 to 999999999 ns."));
                return null;
            }

            return value?.ToDateTimeOffset();
        }

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
            Fault("measured_before", $"{query.MeasuredBefore:O}; expected a time later than measured_from, {query.MeasuredFrom:O}.");
        }

        if (request.PageToken.Length == 0)
        {
            return query;
        }

        if (!PageTokens.TryRead(request, out var position, out var problem))
        {
            Fault("page_token", problem);
        }

        return query with { After = position };
    }
}

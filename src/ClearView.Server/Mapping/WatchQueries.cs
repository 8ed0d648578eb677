using ClearView.Contract.Validation;
using ClearView.Records.Model;
using ClearView.V1;

namespace ClearView.Server.Mapping;

/// <summary>Requests for a watch to queries of the store.</summary>
internal static class WatchQueries
{
    // What one watch holds at most.
    private const int PageSize = 100;
    private const long PageBytes = 4_000_000;

    /// <summary>Reads a request.</summary>
    /// <param name="request">The request.</param>
    /// <param name="violations">Takes every field at fault.</param>
    /// <returns>The query; meaningful only where no violation was added.</returns>
    public static RecordedQuery Read(WatchReadingsRequest request, Violations violations)
    {
        string? Text(string field, string value)
        {
            violations.CheckText(field, value);
            return value.Length == 0 ? null : value;
        }

        var after = 0L;
        if (request.Position.Length > 0 && !WatchPositions.TryRead(request.Position, out after))
        {
            violations.Add("position", $"is not a position of this service; pass it on as it came.");
        }

        if (request.Position.Length > 0 && request.FromBeginning)
        {
            violations.Add("from_beginning", $"given together with a position; expected one of them.");
        }

        return new RecordedQuery
        {
            After = after,
            Line = Text("line", request.Line),
            Product = Text("product", request.Product),
            Lot = Text("lot", request.Lot),
            Roll = Text("roll", request.Roll),
            PageSize = PageSize,
            MaxPayloadBytes = PageBytes,
        };
    }
}

using ClearView.Contract.Decisions;
using ClearView.Contract.Validation;
using ClearView.Records.Model;
using ClearView.V1;

namespace ClearView.Server.Mapping;

/// <summary>Requests to judge stored readings to queries of the store.</summary>
internal static class JudgeQueries
{
    /// <summary>Reads a request.</summary>
    /// <param name="request">The request.</param>
    /// <param name="specification">The specification; its product is taken where the request names none.</param>
    /// <param name="violations">Takes every field at fault.</param>
    /// <returns>The query; meaningful only where no violation was added.</returns>
    public static ReadingQuery Read(JudgeReadingsRequest request, ResolvedSpecification? specification, Violations violations)
    {
        // The filters are those of a list, and have the same rules.
        var list = new ListReadingsRequest
        {
            Line = request.Line,
            Product = request.Product.Length > 0 ? request.Product : specification?.Wire.Product ?? "",
            Lot = request.Lot,
            Roll = request.Roll,
            MeasuredFrom = request.Span?.MeasuredFrom,
            MeasuredBefore = request.Span?.MeasuredBefore,
        };
        var query = ListQueries.Read(list, violations, "span.");
        if (!Enum.IsDefined(request.Group))
        {
            violations.Add("group", $"was the unknown number {(int)request.Group}; expected lot, roll, or none.");
        }

        return query;
    }
}

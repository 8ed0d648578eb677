using ClearView.Contract.Validation;
using ClearView.Records.Audit;
using ClearView.V1;

using ChainBreak = ClearView.Records.Audit.ChainBreak;
using ChainFault = ClearView.Records.Audit.ChainFault;
using ChainHead = ClearView.Records.Audit.ChainHead;

namespace ClearView.Server.Mapping;

/// <summary>Chains of the store on the wire.</summary>
public static class AuditMapper
{
    private const int MostNoted = 1000;

    /// <summary>Heads that a caller noted.</summary>
    internal static List<ChainHead> ReadNoted(VerifyChainRequest request, Violations violations)
    {
        List<ChainHead> heads = [];
        if (request.NotedHeads.Count > MostNoted)
        {
            violations.Add("noted_heads", $"had {request.NotedHeads.Count} heads; expected at most {MostNoted}.");
            return heads;
        }

        for (var i = 0; i < request.NotedHeads.Count; i++)
        {
            var noted = request.NotedHeads[i];
            if (ChainHead.TryParse(FormattableString.Invariant($"{noted.Chain}:{noted.Position}:{noted.Sha256}"), out var head))
            {
                heads.Add(head);
            }
            else
            {
                violations.Add($"noted_heads[{i}]", $"is no head; expected chain and position from 1, and 64 hexadecimal digits.");
            }
        }

        return heads;
    }

    /// <summary>A head on the wire.</summary>
    /// <param name="head">The head.</param>
    public static V1.ChainHead ToHead(ChainHead head) => new() { Chain = head.Chain, Position = head.Position, Sha256 = head.Sha256 };

    /// <summary>What was found, on the wire.</summary>
    /// <param name="report">What was found.</param>
    public static VerificationSummary ToSummary(AuditReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        var summary = new VerificationSummary
        {
            LinkCount = report.Links,
            ReadingCount = report.Readings,
            DocumentCount = report.Documents,
            RetiredReadingCount = report.Retired,
            ExportMonth = report.ExportOfMonth,
            ExportSha256 = report.ExportSha256,
            Heads = { report.Heads.Select(ToHead) },
        };
        if (report.Break is { } found)
        {
            summary.FirstBreak = ToBreak(found, report.BrokenReadingId);
        }

        return summary;
    }

    private static V1.ChainBreak ToBreak(ChainBreak found, Guid? readingId) => new()
    {
        Fault = found.Fault switch
        {
            ChainFault.RecordChanged => V1.ChainFault.RecordChanged,
            ChainFault.RecordMissing => V1.ChainFault.RecordMissing,
            ChainFault.LinkChanged => V1.ChainFault.LinkChanged,
            ChainFault.LinkMissing => V1.ChainFault.LinkMissing,
            ChainFault.RecordWithoutLink => V1.ChainFault.RecordWithoutLink,
            ChainFault.CoveredHeadMissing => V1.ChainFault.CoveredHeadMissing,
            ChainFault.NotedHeadMissing => V1.ChainFault.NotedHeadMissing,
            ChainFault.PartWithoutRecord => V1.ChainFault.PartWithoutRecord,
            _ => throw new ArgumentOutOfRangeException(nameof(found), found.Fault, "expected a fault."),
        },
        Chain = found.Chain,
        Position = found.Position,
        Record = found.Record?.ToString() ?? "",
        ReadingId = readingId is { } id ? ReadingIds.Write(id) : "",
    };
}

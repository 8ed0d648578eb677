using System.Globalization;

using ClearView.V1;

namespace ClearView.Console.Rendering;

/// <summary>Writes what came of a verification.</summary>
internal static class AuditText
{
    /// <summary>A head as it is noted.</summary>
    public static string Head(ChainHead head) => string.Create(CultureInfo.InvariantCulture, $"{head.Chain}:{head.Position}:{head.Sha256}");

    /// <summary>A number of things.</summary>
    public static string Count(long count, string one) => string.Create(CultureInfo.InvariantCulture, $"{count} {one}{(count == 1 ? "" : "s")}");

    /// <summary>Writes the result in words.</summary>
    public static void Write(Screen screen, VerificationSummary summary, int noted)
    {
        if (summary.FirstBreak is { } broken)
        {
            screen.Output.Write("BROKEN: " + Fault(broken.Fault) + ".\n");
            if (broken.Chain > 0)
            {
                Row("Place", string.Create(CultureInfo.InvariantCulture, $"chain {broken.Chain}, position {broken.Position}"));
            }
            if (broken.Record.Length > 0)
            {
                Row("Record", broken.Record + (broken.ReadingId.Length > 0 ? "  " + broken.ReadingId : ""));
            }
            Row("Before it", $"{Count(summary.LinkCount, "link")} that hold" + (broken.Fault == ChainFault.NotedHeadMissing ? "" : "; what stands behind it was not looked at"));
        }
        else
        {
            screen.Output.Write(summary.ExportMonth.Length == 0
                ? "The chains hold: nothing that is recorded was changed, removed or slipped in.\n"
                : "The records hold: each is what its link says. An export has a part of the links; the chains are proved in its store.\n");
            if (summary.ExportMonth.Length > 0)
            {
                Row("Export of", summary.ExportMonth);
                Row("SHA-256", summary.ExportSha256);
            }
            Row("Links", NumberText.Plain(summary.LinkCount));
            Row("Readings", NumberText.Plain(summary.ReadingCount));
            if (summary.RetiredReadingCount > 0)
            {
                Row("Retired", NumberText.Plain(summary.RetiredReadingCount) + " readings, in the exports of their months");
            }
            Row("Documents", NumberText.Plain(summary.DocumentCount));
            Row("Noted heads", noted == 0 ? "none given: an end that was cut off would not show" : $"{noted}, all still there");
        }
        foreach (var (i, head) in summary.Heads.Index())
        {
            Row(i == 0 ? "Heads" : "", Head(head));
        }

        void Row(string name, string text) => screen.Output.Write($"{name,-12} {text}\n");
    }

    private static string Fault(ChainFault fault) => fault switch
    {
        ChainFault.RecordChanged => "a record is not what it was when it was stored",
        ChainFault.RecordMissing => "a record is gone",
        ChainFault.LinkChanged => "a link does not follow from the one before it",
        ChainFault.LinkMissing => "a link of a chain is gone",
        ChainFault.RecordWithoutLink => "a record has no link: it was slipped in, or its link was cut off",
        ChainFault.CoveredHeadMissing => "the end of a chain is gone that another chain has seen",
        ChainFault.NotedHeadMissing => "a head that was noted earlier is gone: the end of its chain was cut off or rewritten",
        ChainFault.PartWithoutRecord => "a value of a series, a picture, a correction or an identifier belongs to no reading",
        _ => "of a kind that this program does not know",
    };
}
